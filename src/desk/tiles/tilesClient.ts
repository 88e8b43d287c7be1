import type { Done, FromTiles, Reply, TileRequest, TilesAnswer, TilesAsk, ToTiles } from './tilesDoor.ts'

/** The page's side of the worker that draws large photos. Every request settles. */
export interface Tiles {
  ask<N extends TileRequest>(
    name: N,
    ask: TilesAsk<N>,
    how?: { readonly signal?: AbortSignal; readonly progress?: (done: Done) => void },
  ): Promise<Reply<TilesAnswer<N>>>
}

interface Pending {
  readonly settle: (reply: Reply<never>) => void
  readonly progress: ((done: Done) => void) | undefined
}

function startTiles(): Worker {
  const storage = new URLSearchParams(location.search).get('storage') ?? ''
  return new Worker(new URL('./tilesWorker.ts', import.meta.url), { type: 'module', name: storage })
}

/** Starts the worker when it is first asked, and another where it died. */
export function openTiles(start: () => Worker = startTiles): Tiles {
  const pending = new Map<number, Pending>()
  let worker: Worker | null = null
  let counted = 0

  const end = (why: string): void => {
    worker?.terminate()
    worker = null
    const waiting = [...pending.values()]
    pending.clear()
    for (const { settle } of waiting)
      settle({ ok: false, fault: { kind: 'photo', field: null, record: null, detail: why } })
  }
  const started = (): Worker => {
    if (worker) return worker
    worker = start()
    worker.onmessage = ({ data }: MessageEvent<FromTiles>) => {
      const known = pending.get(data.n)
      if ('progress' in data) return known?.progress?.(data.progress)
      pending.delete(data.n)
      known?.settle(data.reply as Reply<never>)
    }
    worker.onerror = (event) => {
      event.preventDefault?.()
      end(`The drawing of large photos has stopped (${event.message || 'its program could not be loaded'}).`)
    }
    worker.onmessageerror = () => end('The drawing of large photos sent what could not be read.')
    return worker
  }
  return {
    ask(name, ask, how) {
      return new Promise((settle) => {
        const n = ++counted
        pending.set(n, { settle: settle as Pending['settle'], progress: how?.progress })
        const post = (message: ToTiles) => started().postMessage(message)
        post({ n, name, ask })
        const stop = () => pending.has(n) && post({ stop: n })
        if (how?.signal?.aborted) stop()
        else how?.signal?.addEventListener('abort', stop, { once: true })
      })
    },
  }
}
