import { type Answers, Aside } from './answer/answers.ts'
import { isRequest, readAsk } from './asks.ts'
import { isDamage } from './damage.ts'
import { deskFaultOf } from './deskFault.ts'
import type { Answer, DeskFault, Reply, RequestName, ToPage, ToWorker } from './door.ts'
import { writeEntry } from './farm/entry.ts'
import type { Keeper } from './farm/keeper.ts'
import { loseFarm } from './farm/letGo.ts'
import type { Tending } from './farm/tend.ts'

/** The page's end of a worker's channel. */
export interface Page {
  post(message: ToPage, transfer: Transferable[]): void
}

/**
 * Takes the page's messages, answers one request after another, and settles each: with its answer or with a fault.
 * A request that is stopped while it waits is settled at once, one that runs at its next step. What is left of an answer
 * aside is worked while others are answered.
 */
export function serve(page: Page, keeper: Keeper, answers: Answers, tending: Tending): (message: ToWorker) => void {
  const stops = new Map<number, AbortController>()
  let last: Promise<void> = Promise.resolve()

  keeper.settled = () => last

  const settle = (n: number, reply: Reply<unknown>) => {
    stops.delete(n)
    page.post({ n, reply }, reply.ok ? buffersOf(reply.value) : [])
  }
  return (message) => {
    if ('stop' in message) return stops.get(message.stop)?.abort()
    const { n, name, ask } = message
    const stop = new AbortController()
    stops.set(n, stop)
    tending.busy()
    last = last.then(async () => {
      const reply = await replyTo(keeper, () => answer(keeper, answers, name, ask, stop.signal))
      if (reply.ok && reply.value instanceof Aside)
        void replyTo(keeper, reply.value.work).then((told) => settle(n, told))
      else settle(n, reply)
      tending.free()
    })
  }
}

async function replyTo(keeper: Keeper, work: () => Promise<unknown>): Promise<Reply<unknown>> {
  try {
    return { ok: true, value: await work() }
  } catch (error) {
    const fault = deskFaultOf(error)
    if (fault) return { ok: false, fault }
    return { ok: false, fault: await unforeseen(keeper, error) }
  }
}

async function answer<N extends RequestName>(
  keeper: Keeper,
  answers: Answers,
  name: N,
  ask: unknown,
  signal: AbortSignal,
): Promise<Answer<N> | Aside<Answer<N>>> {
  signal.throwIfAborted()
  if (!isRequest(name)) throw new Error(`nothing answers ${JSON.stringify(name)}`)
  return answers[name](readAsk(name, ask), { keeper, signal })
}

/** A bug, or the engine's end: said in the console, and the farm is given up where it can't be worked on. */
async function unforeseen(keeper: Keeper, error: unknown): Promise<DeskFault> {
  const detail = error instanceof Error ? error.message : String(error)
  const farm = keeper.inHand
  const isDamaged = isDamage(error)
  if (farm && isDamaged) {
    farm.entry = { ...farm.entry, suspect: detail }
    await writeEntry(keeper.shelf, farm.entry)
  }
  const answers =
    farm &&
    !isDamaged &&
    (await farm.db.rows('select 1').then(
      () => true,
      () => false,
    ))
  if (farm && !answers) {
    const why = isDamaged
      ? 'The farm’s database is damaged.'
      : (await keeper.hasRoom())
        ? 'The farm’s database has stopped.'
        : 'The farm’s database has stopped for lack of room on this device. Make some, before you go on: free the files of removed photos, or clear other things away.'
    loseFarm(keeper, farm.entry.id, `${why} Open the farm again: what was confirmed is kept.`)
    return { kind: 'storage', field: null, record: null, detail: `${why} (${detail})` }
  }
  console.error(error)
  return { kind: 'storage', field: null, record: null, detail }
}

/** Buffers of large binary parts of an answer, which are handed over and not copied. */
function buffersOf(value: unknown): Transferable[] {
  if (typeof value !== 'object' || value === null) return []
  const found: Transferable[] = []
  for (const part of Object.values(value))
    if (ArrayBuffer.isView(part)) found.push(part.buffer as ArrayBuffer)
    else if (typeof part === 'object' && part !== null && !Array.isArray(part)) found.push(...buffersOf(part))
  return found
}
