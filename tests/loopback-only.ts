/** Preloaded in every test process: a connection to anything but this machine is an error. */
import net from 'node:net'

const isLoopback = (host: string | undefined) =>
  host === undefined || host === 'localhost' || host === '::1' || /^127\./.test(host) || host === ''

const GUARDED = Symbol.for('tests stay on this machine')
const prototype = net.Socket.prototype as net.Socket & { [GUARDED]?: true }
const { connect } = prototype

function guarded(this: net.Socket, ...args: unknown[]) {
  const first = Array.isArray(args[0]) ? args[0][0] : args[0]
  const options = first as { host?: string; path?: string } | number | string
  if (typeof options === 'object' && options.path === undefined && !isLoopback(options.host))
    throw new Error(`A test tried to reach ${options.host}: tests stay on this machine`)
  return (connect as (...all: unknown[]) => net.Socket).apply(this, args)
}

// Workers run many files, and each begins with this one.
if (prototype[GUARDED] === undefined) {
  prototype[GUARDED] = true
  prototype.connect = guarded as typeof connect
}
