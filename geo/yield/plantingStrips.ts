import type { LongAxis } from '../plane/longAxis.ts'
import { clipWindow } from './clipHalfPlane.ts'
import type { Ring } from './ring.ts'
import { ringsAreaM2 } from './ring.ts'
import { type Line, lineLengthM, rowStretch } from './rowStretch.ts'
import { stripWindows } from './strip.ts'
import type { YieldInput, YieldNote, YieldPlanting } from './yieldInput.ts'

/** A bed with what is reckoned of it once. */
export type LaidBed = {
  readonly id: string
  readonly rings: readonly Ring[]
  readonly areaM2: number
  /** Area over the length of the long axis. */
  readonly widthM: number
  readonly axis: LongAxis
}

/** The ground that a planting had in the season. */
export type PlantingStrip = {
  readonly planting: YieldPlanting
  /** Place of its bed in the list of beds. */
  readonly bed: number
  readonly rings: readonly Ring[]
  /** Ground it answers for: the strip's area, shared where plantings told only by bed stand there together. */
  readonly areaM2: number
  /** The stretch of row it stands along, from and to in metres; for one told only by bed, of the bed's long middle. */
  readonly fromM: number
  readonly toM: number
}

/** Less ground than this is a strip that misses its bed. */
const NO_GROUND_M2 = 1e-6

/**
 * Strips of the plantings that count to the season: those that stood on some day of it, and those picked in it.
 * A strip runs along the planting's stretch of row, as wide as the bed's width over the number of its rows that carry
 * such plantings, clipped to the bed; along a row near the bed's edge it is moved inwards so as not to lose its share.
 * A planting told only by bed has the bed, or the given stretch of its long axis.
 */
export function plantingStrips(
  input: YieldInput,
  beds: readonly LaidBed[],
): { strips: PlantingStrip[]; notes: YieldNote[] } {
  const bedAt = new Map(beds.map((bed, k) => [bed.id, k]))
  const lines = new Map(input.rows.map((row) => [row.id, row.line]))
  const standing = countedPlantings(input)
  const rowsOfBed = new Map<string, Set<string>>()
  const byBedOnly = new Map<string, YieldPlanting[]>()
  for (const planting of standing) {
    if (planting.row === null) pushTo(byBedOnly, planting.bed, planting)
    else rowsOfBed.set(planting.bed, (rowsOfBed.get(planting.bed) ?? new Set()).add(planting.row))
  }

  const missed: string[] = []
  const strips = standing.map((planting): PlantingStrip => {
    const at = bedAt.get(planting.bed)
    if (at === undefined) throw new Error(`planting ${planting.id} stands in a bed that is not there: ${planting.bed}`)
    const bed = beds[at]!
    if (planting.row === null) return stripByBed(planting, at, bed, byBedOnly.get(planting.bed)!)
    const line = lines.get(planting.row)
    if (line === undefined)
      throw new Error(`planting ${planting.id} stands in a row that is not there: ${planting.row}`)
    const fromM = planting.fromM ?? 0
    const toM = Math.min(planting.toM ?? Number.POSITIVE_INFINITY, lineLengthM(line))
    const widthM = bed.widthM / rowsOfBed.get(planting.bed)!.size
    const rings = stripRings(rowStretch(line, fromM, toM), widthM, bed)
    const areaM2 = ringsAreaM2(rings)
    if (areaM2 > NO_GROUND_M2) return { planting, bed: at, rings, areaM2, fromM, toM }
    missed.push(planting.id)
    return { planting, bed: at, rings: bed.rings, areaM2: bed.areaM2, fromM, toM }
  })
  return { strips, notes: missed.length === 0 ? [] : [offBedNote(missed)] }
}

/** The plantings that count to the season: those that stood on some day of it, and those picked in it. */
export function countedPlantings({ plantings, picks, span }: YieldInput): YieldPlanting[] {
  const picked = new Set(picks.plantings.map((sum) => sum.planting))
  return plantings.filter((p) => picked.has(p.id) || overlaps(p, span.from, span.to))
}

/** The strip along a line, moved towards the bed's middle by as much as it would stick out if that gains ground. */
function stripRings(line: Line, widthM: number, { rings, axis, widthM: bedWidthM }: LaidBed): readonly Ring[] {
  const here = stripWindows(line, widthM).flatMap((w) => clipWindow(rings, w))
  const points = line.length / 2
  let across = -axis.middleM
  for (let k = 0; k < line.length; k += 2) across += (axis.ux * line[k + 1]! - axis.uy * line[k]!) / points
  const out = Math.abs(across) - (bedWidthM - widthM) / 2
  if (!(out > 0.001)) return here
  const by = -Math.sign(across) * out
  const inwards = line.map((v, k) => v + by * (k % 2 === 0 ? -axis.uy : axis.ux))
  const there = stripWindows(inwards, widthM).flatMap((w) => clipWindow(rings, w))
  return ringsAreaM2(there) > ringsAreaM2(here) ? there : here
}

/** A planting told only by bed, and the ground shared out over those like it that stand there at the same time. */
function stripByBed(planting: YieldPlanting, at: number, bed: LaidBed, there: readonly YieldPlanting[]): PlantingStrip {
  const together = there.filter((p) => p === planting || overlaps(p, planting.setOut, planting.cleared)).length
  const fromM = planting.fromM ?? 0
  const lengthM = planting.middle === null ? bed.axis.lengthM : lineLengthM(planting.middle)
  const toM = Math.min(planting.toM ?? Number.POSITIVE_INFINITY, lengthM)
  const windows = planting.middle && stripWindows(rowStretch(planting.middle, fromM, toM), 3 * lengthM)
  const stretch = windows === null ? bed.rings : windows.flatMap((w) => clipWindow(bed.rings, w))
  const rings = ringsAreaM2(stretch) > NO_GROUND_M2 ? stretch : bed.rings
  return { planting, bed: at, rings, areaM2: ringsAreaM2(rings) / together, fromM, toM }
}

/** Whether a planting stood on some day from one to another; it is gone on the day it is cleared. */
function overlaps(planting: YieldPlanting, from: string, to: string | null): boolean {
  return (to === null || planting.setOut <= to) && (planting.cleared === null || planting.cleared > from)
}

function offBedNote(ids: readonly string[]): YieldNote {
  return {
    kind: 'strips-off-bed',
    ids,
    detail: 'These plantings’ stretches of row lie outside their bed, so their picks are spread over the whole bed.',
  }
}

function pushTo<K, V>(lists: Map<K, V[]>, key: K, value: V): void {
  const list = lists.get(key)
  if (list === undefined) lists.set(key, [value])
  else list.push(value)
}
