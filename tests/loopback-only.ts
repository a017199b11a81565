/** Preloaded in every test process: a connection to anything but this machine is an error. */
import net from 'node:net'

const isLoopback = (host: string | undefined) =>
  host === undefined || host === 'localhost' || host === '::1' || /^127\./.test(host) || host === ''

const connect = net.Socket.prototype.connect
net.Socket.prototype.connect = function (this: net.Socket, ...args: unknown[]) {
  const first = Array.isArray(args[0]) ? args[0][0] : args[0]
  const options = first as { host?: string; path?: string } | number | string
  if (typeof options === 'object' && options.path === undefined && !isLoopback(options.host))
    throw new Error(`A test tried to reach ${options.host}: tests stay on this machine`)
  return (connect as (...all: unknown[]) => net.Socket).apply(this, args)
} as typeof connect
