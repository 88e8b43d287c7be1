import loadHighs from 'highs'
import wasm from 'highs/runtime?url'
import { chooseSites } from '../../../geo/siting/chooseSites.ts'
import type { FromChooser, ToChoose } from './sitingDoor.ts'

const worker = self as unknown as {
  onmessage: (message: MessageEvent<ToChoose>) => void
  postMessage(message: FromChooser): void
}

worker.onmessage = async ({ data: { reading, gap, seconds, others } }) => {
  try {
    const highs = await loadHighs({ locateFile: () => wasm })
    const tell = (progress: {
      doing: 'bounding' | 'choosing' | 'proving'
      best: number | null
      bound: number | null
    }) => {
      worker.postMessage({ progress })
      return true
    }
    const answer = chooseSites(highs, reading, { gap, seconds, others, clock: () => performance.now(), tell })
    worker.postMessage({ answer })
  } catch (error) {
    worker.postMessage({ failed: error instanceof Error ? error.message : String(error) })
  }
}
