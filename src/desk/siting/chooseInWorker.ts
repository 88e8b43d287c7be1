import type { FromChooser, Progress, SitingAnswer, ToChoose } from './sitingDoor.ts'

export type Chosen = { readonly answer: SitingAnswer } | { readonly failed: string } | { readonly stopped: true }

/** Chooses in a worker of its own, which ends with the answer, or at once where it is stopped. */
export function chooseInWorker(
  ask: ToChoose,
  how: { readonly signal: AbortSignal; readonly progress: (progress: Progress) => void },
): Promise<Chosen> {
  return new Promise((settle) => {
    const worker = new Worker(new URL('./sitingWorker.ts', import.meta.url), { type: 'module' })
    const end = (chosen: Chosen) => {
      worker.terminate()
      settle(chosen)
    }
    worker.onmessage = ({ data }: MessageEvent<FromChooser>) => {
      if ('progress' in data) how.progress(data.progress)
      else end(data)
    }
    worker.onerror = (event) => {
      event.preventDefault?.()
      end({ failed: event.message || 'the program that chooses could not be loaded' })
    }
    if (how.signal.aborted) return end({ stopped: true })
    how.signal.addEventListener('abort', () => end({ stopped: true }), { once: true })
    worker.postMessage(ask)
  })
}
