import type { Crop } from '../model/crops.ts'
import type { Planting } from '../model/plantings.ts'
import type { Metres } from '../plane/lonLat.ts'
import { partOfLine, type Span } from '../plane/within.ts'
import type { Ground } from './ground.ts'

/** A planting where it stands. Spans are metres along its row, or along its bed's middle where it takes the whole width. */
export interface Stand {
  readonly planting: Planting
  readonly crop: Crop
  readonly variety: string
  readonly bed: string
  /** Null: it was told by its bed alone, and takes the whole width of it. */
  readonly row: string | null
  readonly span: Span
  /** The same stretch as metres along the bed's middle, by which rows and whole widths are compared. */
  readonly along: Span
  /** True where its row is drawn against the direction of the bed's middle. */
  readonly back: boolean
  /** The stretch in the farm's plane. */
  readonly line: readonly Metres[]
}

/** The stretches of a farm's plantings; one whose row, bed or variety is not among what was read is left out. */
export function standsOf(ground: Ground): Stand[] {
  return ground.plantings.flatMap((planting) => standOf(ground, planting) ?? [])
}

export function standOf(ground: Ground, planting: Planting): Stand | null {
  const row = planting.row === null ? null : ground.rows.get(planting.row)
  const bed = ground.beds.get(row?.bed ?? planting.bed ?? '')
  const variety = ground.varieties.get(planting.variety)
  const crop = ground.crops.get(variety?.crop ?? '')
  if (row === undefined || !bed || !variety || !crop) return null
  const whole = row?.line ?? bed.middle
  const lengthM = lineLengthM(whole)
  const span: Span = [Math.min(planting.from_m ?? 0, lengthM), Math.min(planting.to_m ?? lengthM, lengthM)]
  const line = partOfLine(whole, span)
  const along = row ? spanAlong(bed.middle, line) : span
  const back = row !== null && startsAt(bed.middle, row.line[0]!) > startsAt(bed.middle, row.line.at(-1)!)
  return { planting, crop, variety: variety.name, bed: bed.id, row: row?.id ?? null, span, along, back, line }
}

export function lineLengthM(line: readonly Metres[]): number {
  let lengthM = 0
  for (let i = 1; i < line.length; i++)
    lengthM += Math.hypot(line[i]![0] - line[i - 1]![0], line[i]![1] - line[i - 1]![1])
  return lengthM
}

/** How far a line reaches along a straight one, as metres from its start. */
export function spanAlong([start, end]: readonly Metres[], line: readonly Metres[]): Span {
  if (!start || !end || line.length === 0) return [0, 0]
  const lengthM = Math.hypot(end[0] - start[0], end[1] - start[1])
  const at = line.map(
    ([x, y]) => ((x - start[0]) * (end[0] - start[0]) + (y - start[1]) * (end[1] - start[1])) / lengthM,
  )
  return [Math.min(...at), Math.max(...at)]
}

const startsAt = (middle: readonly Metres[], at: Metres) => spanAlong(middle, [at])[0]
