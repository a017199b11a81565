import { GatewayOpcodes } from 'discord-api-types/v10'
import type { WorldGuild } from '../world/world.ts'
import type { Connection } from './connection.ts'
import { SessionKeeper } from './keeper.ts'
import type { DispatchFrame } from './session.ts'

/** The gateway with the trouble that a test makes for its clients. */
export class Gateway extends SessionKeeper {
  /** Live sockets, of one shard or of all. */
  #live(shard?: number): Connection[] {
    return [...this.connections].filter((each) => shard === undefined || each.session?.shard[0] === shard)
  }

  /** Cuts the sockets without a word (the client sees 1006). */
  dropSocket(shard?: number): void {
    for (const each of this.#live(shard)) each.socket.terminate()
  }

  close(code: number, shard?: number): void {
    for (const each of this.#live(shard)) each.close(code)
  }

  /** Asks the client to reconnect. */
  sendOp7(shard?: number): void {
    for (const each of this.#live(shard)) each.send({ op: GatewayOpcodes.Reconnect, d: null })
  }

  /** Declares the session invalid; not resumable ones are forgotten. */
  sendOp9(resumable: boolean, shard?: number): void {
    for (const each of this.#live(shard)) {
      const { session } = each
      each.send({ op: GatewayOpcodes.InvalidSession, d: resumable })
      each.session = undefined
      if (session !== undefined && !resumable) this.sessions.delete(session.id)
      if (session?.connection === each) session.connection = undefined
    }
  }

  /** Heartbeats stay unanswered from now on, on all sockets and new ones. */
  stopAcks(): void {
    this.#setAcks(false)
  }

  resumeAcks(): void {
    this.#setAcks(true)
  }

  #setAcks(on: boolean): void {
    this.acks = on
    for (const each of this.connections) each.acks = on
  }

  /** Asks for a heartbeat at once. */
  sendOp1(shard?: number): void {
    for (const each of this.#live(shard)) each.send({ op: GatewayOpcodes.Heartbeat, d: null })
  }

  /** The links go half-open: nothing is read any more, not even a close, and nothing is sent. */
  pauseSocket(shard?: number): void {
    for (const each of this.#live(shard)) each.silence()
  }

  /** New connections get this HTTP status instead of an upgrade; undefined lets them in again. */
  refuseUpgrades(status: number | undefined): void {
    this.refuseStatus = status
  }

  /** Sends kept dispatches again from `seq` on, as a faulty resume would: the client sees them twice. */
  replayFrom(seq: number, shard?: number): void {
    for (const each of this.#live(shard)) each.session?.replay(seq)
  }

  /** Sends a frame as it is, well-formed or not. */
  sendRaw(frame: unknown, shard?: number): void {
    for (const each of this.#live(shard)) each.send(frame)
  }

  /** Everything sent to a shard so far, for looking. */
  sent(shard = 0): DispatchFrame[] {
    return [...this.sessions.values()].filter((each) => each.shard[0] === shard).flatMap((each) => each.ring)
  }

  /** Ends an outage: the guild becomes available to those who asked for guilds. */
  restoreGuild(guild: WorldGuild): void {
    guild.outage = false
    for (const session of this.sessions.values())
      if (session.hears(guild.id) && session.wantsGuilds) this.sendGuild(session, guild)
  }

  terminateAll(): void {
    for (const each of this.connections) each.socket.terminate()
  }
}
