import { existsSync } from 'node:fs'
import { mkdir, readdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { memoryShelf, type Shelf } from '../../geo/keep/shelf.ts'
import { emptyGridBook } from '../../geo/photo/gridBook.ts'
import { openNodeDatabase } from '../../geo/store/template/nodeEngine.ts'
import { readMigrations } from '../../geo/store/template/readMigrations.ts'
import { allAnswers } from '../../src/desk/answer/allAnswers.ts'
import type { Answer, Ask, DeskEvent, Reply, RequestName, ToPage, ToWorker } from '../../src/desk/door.ts'
import type { Engines } from '../../src/desk/engine/engines.ts'
import type { Keeper } from '../../src/desk/farm/keeper.ts'
import { watchRoom } from '../../src/desk/farm/roomWatch.ts'
import type { Tending } from '../../src/desk/farm/tend.ts'
import { serve } from '../../src/desk/serve.ts'

/** Databases in a folder of this machine. */
function folderEngines(storage: 'opfs' | 'idb', folder: string): Engines {
  const path = (name: string) => join(folder, name)
  return {
    storage,
    look: async (name) => {
      if (!existsSync(path(name))) return 'nothing'
      return existsSync(join(path(name), 'PG_VERSION')) ? 'database' : { broken: 'PG_VERSION is gone' }
    },
    open: async (name, what) => {
      if ((what === 'new') === existsSync(path(name))) throw new Error(`${what} database ${name} was asked for`)
      await mkdir(folder, { recursive: true })
      return openNodeDatabase({ dataDir: path(name) })
    },
    remove: (name) => rm(path(name), { recursive: true, force: true }),
    list: async () => (existsSync(folder) ? readdir(folder) : []),
  }
}

/** A worker's inner part, run here: the same answers on databases in a folder and a shelf in memory. */
export interface TestDesk {
  readonly keeper: Keeper
  readonly said: DeskEvent[]
  ask<N extends RequestName>(name: N, ask: Ask<N>): Promise<Reply<Answer<N>>>
  answer<N extends RequestName>(name: N, ask: Ask<N>): Promise<Answer<N>>
  /** Sends any message, as a page might. */
  send(message: unknown): void
  /** Replies as they were posted, by their number. */
  readonly replies: Map<number, Reply<unknown>>
}

/** Farms that some desk of these tests has in hand. */
const held = new Set<string>()

export async function makeDesk(
  folder: string,
  files: Map<string, Uint8Array>,
  more: {
    shelf?: (shelf: Shelf) => Shelf
    hasRoom?: () => Promise<boolean>
    storage?: 'opfs' | 'idb'
    tending?: (keeper: Keeper) => Tending
  } = {},
): Promise<TestDesk> {
  const said: DeskEvent[] = []
  const replies = new Map<number, Reply<unknown>>()
  const waiting = new Map<number, (reply: Reply<never>) => void>()
  let nowMs = 1_750_000_000_000
  const shelf = memoryShelf(files)
  const hasRoom = more.hasRoom ?? (async () => true)
  const keeper: Keeper = {
    shelf: more.shelf?.(shelf) ?? shelf,
    engines: { opfs: folderEngines('opfs', join(folder, 'opfs')), idb: folderEngines('idb', join(folder, 'idb')) },
    storageForNew: async () => more.storage ?? 'opfs',
    migrations: await readMigrations(),
    device: 'test-device',
    nowMs: () => nowMs++,
    random: (bytes) => crypto.getRandomValues(new Uint8Array(bytes)),
    takeFarm: async (id) => {
      if (held.has(id)) return null
      held.add(id)
      return { release: () => void held.delete(id) }
    },
    grids: emptyGridBook,
    fetchDemo: () => Promise.reject(new Error('no demo farm here')),
    say: (event) => said.push(event),
    hasRoom,
    room: watchRoom(hasRoom, () => nowMs),
    inHand: null,
    settled: () => Promise.resolve(),
  }
  const post = (message: ToPage) => {
    if (!('n' in message)) return
    replies.set(message.n, message.reply)
    waiting.get(message.n)?.(message.reply as Reply<never>)
  }
  const quiet: Tending = { busy: () => undefined, free: () => undefined }
  const take = serve({ post }, keeper, allAnswers, more.tending?.(keeper) ?? quiet)
  let n = 1000
  const desk: TestDesk = {
    keeper,
    said,
    replies,
    send: (message) => take(message as ToWorker),
    ask: (name, ask) =>
      new Promise((settle) => {
        n++
        waiting.set(n, settle)
        take(structuredClone({ n, name, ask }))
      }),
    async answer(name, ask) {
      const reply = await desk.ask(name, ask)
      if (!reply.ok) throw new Error(`${name} was refused: ${JSON.stringify(reply.fault)}`)
      return reply.value
    },
  }
  return desk
}

/** What a killed worker leaves: its lock free and its files as they are; nothing was closed. */
export function abandon(desk: TestDesk): void {
  if (desk.keeper.inHand) held.delete(desk.keeper.inHand.entry.id)
  desk.keeper.inHand = null
}
