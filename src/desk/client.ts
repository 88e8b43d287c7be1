import type { Answer, Ask, Desk, DeskEvent, DeskFault, Reply, RequestName, ToPage, ToWorker } from './door.ts'
import { whenFree } from './liveLock.ts'
import { startWorker } from './startWorker.ts'

/** What is used of a worker. */
export type DeskWorker = Pick<Worker, 'onmessage' | 'onerror' | 'onmessageerror' | 'postMessage' | 'terminate'>

/** How long an opening may be silent, and a stopped request unsettled, before the worker counts as hung. */
const SILENT_MS = 60_000
const STOPPING_MS = 60_000

interface Pending {
  readonly name: RequestName
  readonly ask: unknown
  readonly settle: (reply: Reply<never>) => void
}

/**
 * The page's side of the door. Every request settles, also when its worker dies, hangs or loses its farm: such a worker
 * is ended, so that nothing of the farm stays in its hands, the next request starts another, and `lost` says that the
 * farm must be opened again. A farm whose opening hangs is opened
 * once more in a new worker, which makes it anew.
 */
export function openDesk(start: () => DeskWorker = startWorker): Desk {
  const pending = new Map<number, Pending>()
  const hearers = new Set<(event: DeskEvent) => void>()
  let worker: DeskWorker | null = null
  let counted = 0
  let silence: ReturnType<typeof setTimeout> | undefined

  const say = (event: DeskEvent) => {
    for (const hear of hearers) hear(event)
  }
  const post = (message: ToWorker) => worker!.postMessage(message)
  const opening = () => [...pending].find(([, { name }]) => name === 'openFarm')

  /** Opening must give a sign of life now and then. */
  function watch(): void {
    clearTimeout(silence)
    if (opening()) silence = setTimeout(hung, SILENT_MS)
  }

  function hung(): void {
    const found = opening()
    if (!found) return
    const [n, request] = found
    const ask = request.ask as Ask<'openFarm'>
    if (!ask.rebuild) pending.delete(n)
    end('The database did not answer.')
    if (!ask.rebuild) send(n, { ...request, ask: { ...ask, rebuild: true } })
  }

  function send(n: number, request: Pending): void {
    ensureWorker()
    pending.set(n, request)
    post({ n, name: request.name, ask: request.ask })
    watch()
  }

  /** Ends the worker, however it fares; what waits for it is settled. */
  function end(why: string): void {
    if (!worker) return
    worker.onmessage = worker.onerror = worker.onmessageerror = null
    worker.terminate()
    worker = null
    clearTimeout(silence)
    const fault: DeskFault = { kind: 'storage', field: null, record: null, detail: why }
    const waiting = [...pending.values()]
    pending.clear()
    for (const { settle } of waiting) settle({ ok: false, fault })
    say({ event: 'lost', why })
  }

  function ensureWorker(): void {
    if (worker) return
    const started = start()
    worker = started
    started.onmessage = ({ data }: MessageEvent<ToPage>) => {
      if ('alive' in data) whenFree(data.alive, () => worker === started && end('The database has stopped.'))
      else if ('n' in data) {
        const { name, settle } = pending.get(data.n) ?? {}
        pending.delete(data.n)
        if (data.reply.ok && (name === 'makeFarm' || name === 'bringArchive')) askToKeep()
        settle?.(data.reply as Reply<never>)
      } else if (data.event === 'lost') end(data.why)
      else say(data)
      watch()
    }
    started.onerror = (event) => {
      event.preventDefault?.()
      console.error(event.message)
      end(`The database has stopped (${event.message || 'its program could not be loaded'}).`)
    }
    started.onmessageerror = () => end('The database sent what could not be read.')
  }

  function stop(n: number): void {
    if (!pending.has(n)) return
    post({ stop: n })
    setTimeout(() => pending.has(n) && end('The database could not be stopped and was ended.'), STOPPING_MS)
  }

  return {
    ask<N extends RequestName>(name: N, ask: Ask<N>, { signal }: { signal?: AbortSignal } = {}) {
      return new Promise<Reply<Answer<N>>>((settle) => {
        const n = ++counted
        send(n, { name, ask, settle: settle as Pending['settle'] })
        if (signal?.aborted) stop(n)
        else signal?.addEventListener('abort', () => stop(n), { once: true })
      })
    },
    listen(hear) {
      hearers.add(hear)
      return () => hearers.delete(hear)
    },
  }
}

/** Asks the browser not to clear a farm away when the device runs short of room. It may say no. */
function askToKeep(): void {
  void globalThis.navigator?.storage?.persist?.().catch(() => undefined)
}
