import type { Metres } from '../../../geo/plane/lonLat.ts'
import type { WalkEvent } from '../../../geo/track/fix.ts'
import { R95 } from '../../../geo/track/fix.ts'

/** Two independent normal numbers (Box & Muller 1958). */
function normals(next: () => number): readonly [number, number] {
  const r = Math.sqrt(-2 * Math.log(1 - next()))
  const angle = 2 * Math.PI * next()
  return [r * Math.cos(angle), r * Math.sin(angle)]
}

/** What a device would tell of a walk about corners: at each it stands still, between them it tells a position every so many metres. */
export interface MadeWalk {
  readonly corners: readonly Metres[]
  /** Told as the radius for 95 in 100; the scatter is made to fit it. */
  readonly accuracyM: number
  /** How much of the scatter drifts slowly (a first-order Markov process), as a share of its variance. */
  readonly drift: number
  readonly holdFixes: number
  /** One position in so many lies far off. */
  readonly outlierIn: number
  readonly holds: boolean
  readonly stepM: number
}

export interface MadeStep {
  readonly event: WalkEvent
  readonly at: Metres | null
  readonly outlier: boolean
}

export function makeWalk(walk: MadeWalk, next: () => number, toLonLat: (at: Metres) => readonly [number, number]) {
  const sd = walk.accuracyM / R95
  let [driftE, driftN] = normals(next)
  const steps: MadeStep[] = []
  let atMs = 0
  const fix = (at: Metres) => {
    // Keeps e^(−1/30) of itself a second: a correlation time of half a minute.
    const keep = Math.exp(-1 / 30)
    const [a, b] = normals(next)
    driftE = keep * driftE + Math.sqrt(1 - keep * keep) * a
    driftN = keep * driftN + Math.sqrt(1 - keep * keep) * b
    const [e, n] = normals(next)
    const outlier = next() < 1 / walk.outlierIn
    const [slow, fast] = [Math.sqrt(walk.drift) * sd, Math.sqrt(1 - walk.drift) * sd]
    const turn = 2 * Math.PI * next()
    const far = outlier ? 40 + 40 * next() : 0
    const place: Metres = [
      at[0] + slow * driftE + fast * e + far * Math.cos(turn),
      at[1] + slow * driftN + fast * n + far * Math.sin(turn),
    ]
    const [lon, lat] = toLonLat(place)
    atMs += 1000
    steps.push({ event: { does: 'fix', lon, lat, accuracyM: walk.accuracyM, atMs }, at, outlier })
  }
  walk.corners.forEach((corner, n) => {
    if (walk.holds) steps.push({ event: { does: 'hold' }, at: null, outlier: false })
    for (let k = 0; k < (walk.holds ? walk.holdFixes : 1); k += 1) fix(corner)
    if (walk.holds) steps.push({ event: { does: 'go on' }, at: null, outlier: false })
    const after = walk.corners[(n + 1) % walk.corners.length]!
    const wayM = Math.hypot(after[0] - corner[0], after[1] - corner[1])
    for (let m = walk.stepM; m < wayM; m += walk.stepM)
      fix([corner[0] + ((after[0] - corner[0]) * m) / wayM, corner[1] + ((after[1] - corner[1]) * m) / wayM])
  })
  return steps
}
