import loadHighs from 'highs'
import wasm from 'highs/runtime?url'
import { rotate } from '../../../geo/rotation/rotate.ts'
import { chooseSites } from '../../../geo/siting/chooseSites.ts'
import type { Plan } from '../../../geo/siting/problem.ts'
import type { FromChooser, Progress, ToChoose } from './sitingDoor.ts'

const worker = self as unknown as {
  onmessage: (message: MessageEvent<ToChoose>) => void
  postMessage(message: FromChooser): void
}

worker.onmessage = async ({ data: asked }) => {
  try {
    const highs = await loadHighs({ locateFile: () => wasm })
    let told: Plan | null = null
    const tell = (progress: Progress, plan: Plan | null) => {
      worker.postMessage(plan && plan !== told ? { progress, plan } : { progress })
      told = plan
      return true
    }
    const how = { gap: asked.gap, seconds: asked.seconds, clock: () => performance.now(), tell }
    const answer =
      'sites' in asked
        ? chooseSites(highs, asked.sites, { ...how, others: asked.others })
        : rotate(highs, asked.rotation, how)
    worker.postMessage({ answer })
  } catch (error) {
    worker.postMessage({ failed: error instanceof Error ? error.message : String(error) })
  }
}
