import { deskFaultOf } from '../deskFault.ts'
import type { TilesAnswers } from './answerTiles.ts'
import type { FromTiles, Reply, TileRequest, ToTiles } from './tilesDoor.ts'

/** Tiles under way at once: one is read from the disk while another is drawn. */
const AT_ONCE = 2

const bitmapsOf = (value: unknown): ImageBitmap[] => {
  const held = typeof value === 'object' && value !== null && 'image' in value ? value.image : value
  return held instanceof ImageBitmap ? [held] : []
}

/**
 * Takes the page's messages and settles each. Tiles wait for their turn, and those no longer wanted are settled before
 * it; copying and other long work goes on beside them.
 */
export function serveTiles(
  post: (message: FromTiles, transfer: Transferable[]) => void,
  answers: TilesAnswers,
): (message: ToTiles) => void {
  const stops = new Map<number, AbortController>()
  const waiting: (() => Promise<void>)[] = []
  let underWay = 0

  const next = async (): Promise<void> => {
    if (underWay >= AT_ONCE) return
    const run = waiting.shift()
    if (!run) return
    underWay += 1
    await run()
    underWay -= 1
    void next()
  }
  const settle = (n: number, reply: Reply<unknown>): void => {
    stops.delete(n)
    post({ n, reply }, reply.ok ? bitmapsOf(reply.value) : [])
  }
  const replyTo = async (n: number, name: TileRequest, ask: unknown, signal: AbortSignal): Promise<Reply<unknown>> => {
    try {
      signal.throwIfAborted()
      const answer = answers[name] as (
        ask: unknown,
        asked: { signal: AbortSignal; progress: (done: { done: number; of: number }) => void },
      ) => Promise<unknown>
      return { ok: true, value: await answer(ask, { signal, progress: (progress) => post({ n, progress }, []) }) }
    } catch (error) {
      const fault = deskFaultOf(error)
      if (fault) return { ok: false, fault }
      console.error(error)
      const detail = error instanceof Error ? error.message : String(error)
      return { ok: false, fault: { kind: 'photo', field: null, record: null, detail } }
    }
  }
  return (message) => {
    if ('stop' in message) return stops.get(message.stop)?.abort()
    const { n, name, ask } = message
    const stop = new AbortController()
    stops.set(n, stop)
    const run = async () => settle(n, await replyTo(n, name, ask, stop.signal))
    if (name !== 'draw') return void run()
    waiting.push(run)
    void next()
  }
}
