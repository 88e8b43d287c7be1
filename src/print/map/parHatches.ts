import type { Feature, Position } from 'geojson'
import { type At, type Box, type GroupMark, type Mark, SOLID, type Step, type Stroke } from '../marks.ts'
import { hatched } from './hatch.ts'
import { shapesOf, stepsOf, touches } from './shapes.ts'

/** How a stretch of the ramp about par is hatched on paper: from a value up to another. */
export interface HatchClass {
  readonly from: number
  readonly below: number
  readonly apartMm: number
  readonly turnDeg: number
}

/** Slanting below par, the lower the closer: the ramp's two ends look alike in grey. */
const LOW: readonly HatchClass[] = [
  { from: Number.NEGATIVE_INFINITY, below: 0.75, apartMm: 0.8, turnDeg: 45 },
  { from: 0.75, below: 0.9, apartMm: 1.6, turnDeg: 45 },
]
/** Level above par, the higher the closer. */
const HIGH: readonly HatchClass[] = [
  { from: 1.1, below: 1.25, apartMm: 1.6, turnDeg: 0 },
  { from: 1.25, below: Number.POSITIVE_INFINITY, apartMm: 0.8, turnDeg: 0 },
]

/** With colours only what is low is hatched; without, what is high is too. */
export const hatchClasses = (black: boolean): readonly HatchClass[] => (black ? [...LOW, ...HIGH] : LOW)

const INK_LINE: Stroke = { ...SOLID, colour: '#22302c', widthMm: 0.12 }
/** Under the ink, so that the line is seen on a dark ground. */
const CASING: Stroke = { ...SOLID, colour: '#fdfbf2', widthMm: 0.34, opacity: 0.8 }

/** An area in a class's hatch. */
export function inHatch(area: readonly Step[], box: Box, { apartMm, turnDeg }: HatchClass, black: boolean): Mark[] {
  const ink = hatched(area, box, apartMm, turnDeg, INK_LINE)
  return black ? [ink] : [hatched(area, box, apartMm, turnDeg, CASING), ink]
}

/** Hatches over the pieces of a surface about par; all pieces of one class together, so that lines run on. */
export function parHatches(
  features: readonly Feature[],
  place: (at: Position) => At,
  box: Box,
  black: boolean,
): GroupMark[] {
  const classes = hatchClasses(black)
  const areas = classes.map((): Step[] => [])
  for (const { geometry, properties } of features) {
    const value: unknown = properties?.value
    if (typeof value !== 'number') continue
    const n = classes.findIndex(({ from, below }) => value >= from && value < below)
    if (n < 0) continue
    for (const shape of shapesOf(geometry, place)) if (touches(shape, box, 0)) areas[n]!.push(...stepsOf(shape))
  }
  return areas.flatMap((area, n) => (area.length === 0 ? [] : (inHatch(area, box, classes[n]!, black) as GroupMark[])))
}
