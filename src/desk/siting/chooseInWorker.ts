import { rotationAnswer } from '../../../geo/rotation/rotate.ts'
import type { RotationReading } from '../../../geo/rotation/rotationReading.ts'
import { sitingAnswer } from '../../../geo/siting/chooseSites.ts'
import { costIn } from '../../../geo/siting/costIn.ts'
import type { Plan } from '../../../geo/siting/problem.ts'
import type { SitingReading } from '../../../geo/siting/sitingReading.ts'
import { SHORT_M } from '../../../geo/siting/solver/solve.ts'
import type { FromChooser, Progress, RotationAnswer, SitingAnswer, ToChoose } from './sitingDoor.ts'

export type Chosen<Answer> = { readonly answer: Answer } | { readonly failed: string } | { readonly stopped: true }

export interface Choosing {
  readonly gap: number
  readonly seconds: number
  readonly signal: AbortSignal
  readonly progress: (progress: Progress) => void
}

/** Chooses rows in a worker of its own. Where it is stopped, the best plan so far is the answer, if it meets the need. */
export function chooseInWorker(sites: SitingReading, others: number, how: Choosing): Promise<Chosen<SitingAnswer>> {
  const { gap, seconds } = how
  return inWorker({ sites, others, gap, seconds }, how, (plan, far) =>
    costIn(sites.problem, plan).shortM.some((byYear) => byYear.some((metres) => metres > SHORT_M))
      ? null
      : sitingAnswer(sites, plan, far),
  )
}

/** Chooses a rotation in a worker of its own. Where it is stopped, the best plan so far is the answer. */
export function rotateInWorker(rotation: RotationReading, how: Choosing): Promise<Chosen<RotationAnswer>> {
  const { gap, seconds } = how
  return inWorker({ rotation, gap, seconds }, how, (plan, far) => rotationAnswer(rotation, plan, far))
}

function inWorker<Answer>(
  ask: ToChoose,
  how: Choosing,
  soFar: (plan: Plan, gap: number) => Answer | null,
): Promise<Chosen<Answer>> {
  return new Promise((settle) => {
    const worker = new Worker(new URL('./sitingWorker.ts', import.meta.url), { type: 'module' })
    let plan: Plan | null = null
    let far = 1
    const end = (chosen: Chosen<Answer>) => {
      worker.terminate()
      settle(chosen)
    }
    const stop = () => {
      const answer = plan && soFar(plan, far)
      end(answer ? { answer } : { stopped: true })
    }
    worker.onmessage = ({ data }: MessageEvent<FromChooser>) => {
      if (!('progress' in data)) return end(data as Chosen<Answer>)
      plan = data.plan ?? plan
      const { best, bound } = data.progress
      if (best !== null && bound !== null) far = best > 0 ? Math.max(0, best - bound) / best : 1
      how.progress(data.progress)
    }
    worker.onerror = (event) => {
      event.preventDefault?.()
      end({ failed: event.message || 'the program that chooses could not be loaded' })
    }
    if (how.signal.aborted) return stop()
    how.signal.addEventListener('abort', stop, { once: true })
    worker.postMessage(ask)
  })
}
