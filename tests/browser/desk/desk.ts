import { openDesk } from '../../../src/desk/client.ts'
import type { Desk, DeskEvent } from '../../../src/desk/door.ts'

declare global {
  /** The desk, for the tests to ask. */
  var desk: Desk
  /** What it has said unasked. */
  var heard: DeskEvent[]
}

globalThis.desk = openDesk()
globalThis.heard = []
desk.listen((event) => heard.push(event))
