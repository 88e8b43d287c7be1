import { signal } from '@preact/signals'
import { bearingOf } from '../../../../geo/layout/turnedFrame.ts'
import type { Plane } from '../../../../geo/plane/plane.ts'
import type { Session } from '../../../draw/session.ts'
import { farmMap } from '../../state/mapHandle.ts'

/** The line being drawn for its direction, if one is. */
export const lineInHand = signal<Session | null>(null)

/** Lets two places be put down on the map (tap, click, or arrow keys and Enter), and tells the bearing from one to the other. */
export async function takeBearing(plane: Plane, told: (bearingDeg: number) => void): Promise<void> {
  const map = farmMap.value
  if (!map) return
  dropLine()
  const { startSession } = await import('../../../draw/startSession.ts')
  const over = () => {
    lineInHand.value = null
  }
  const session = startSession(map, { do: 'draw', what: 'row' }, plane.origin, {
    onMeasure({ corners }) {
      if (corners === 2) queueMicrotask(() => session.finish())
    },
    onFinish({ geometry }) {
      over()
      if (geometry.type !== 'LineString') return
      const [a, b] = [geometry.coordinates[0]!, geometry.coordinates.at(-1)!].map((p) => plane.toMetres([p[0]!, p[1]!]))
      told(bearingOf([b![0] - a![0], b![1] - a![1]]))
    },
    onCancel: over,
  })
  lineInHand.value = session
}

export function dropLine(): void {
  lineInHand.value?.cancel()
  lineInHand.value = null
}
