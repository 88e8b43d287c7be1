import type { AnyRecord } from '../../../../geo/model/kind.ts'
import { type LongAxis, longAxis } from '../../../../geo/plane/longAxis.ts'
import type { Metres } from '../../../../geo/plane/lonLat.ts'
import type { Edit } from '../../../desk/door.ts'
import { areaM2 } from '../../../draw/measureShape.ts'
import { within } from '../../../draw/ops/cutRing.ts'
import { middleAlong } from '../../../draw/ops/shareInside.ts'
import { crossingsM, cutLineAt } from '../../../draw/ops/splitLine.ts'
import type { Shape } from '../../../draw/shape.ts'
import { copyOf } from './copyOf.ts'
import { shareOut } from './shareOut.ts'
import { type Piece, shareAlong } from './shareStretch.ts'

interface BedPart {
  readonly id: string
  readonly shape: Shape
}

/** A bed that is cut: its outline, the cut, and its parts, the one that stays the same bed first. */
export interface BedSplit {
  readonly whole: Shape
  readonly cut: readonly Metres[]
  readonly parts: readonly BedPart[]
}

/**
 * Where a planting that was told of the bed alone goes when the bed is cut: one with a stretch by the parts that its
 * stretch of the bed's long middle lies in, as in a row; one without stands in all parts, its plants shared by area, or
 * stays in the first where it is not to be cut.
 */
export function shareLoose(planting: AnyRecord, split: BedSplit, cut: boolean, newId: () => string): readonly Edit[] {
  const axis = longAxis(split.whole.parts[0] ?? [])
  const told = typeof planting.from_m === 'number' || typeof planting.to_m === 'number'
  if (axis && told) return shareAlong(planting, piecesAlong(axis, split), cut, newId)
  const [first, ...others] = split.parts
  const goesTo = (to: Readonly<Record<string, unknown>>): Edit => ({
    do: 'change',
    kind: 'plantings',
    id: planting.id,
    to: { bed: first!.id, ...to },
  })
  if (!cut) return first!.id === planting.bed ? [] : [goesTo({})]
  const plants = shareOut(
    planting.plants,
    split.parts.map(({ shape }) => areaM2(shape)),
  )
  return [
    goesTo({ plants: plants[0] ?? null }),
    ...others.map(({ id }, n) => copyOf('plantings', planting, newId(), { bed: id, plants: plants[n + 1] ?? null })),
  ]
}

/**
 * What each part has of the bed's long middle. A part that it does not touch lies beside another (the cut runs along the
 * bed) and has what lies beside it; metres then count by how wide a part is.
 */
function piecesAlong(axis: LongAxis, { cut, parts }: BedSplit): readonly Piece[] {
  const middle: readonly Metres[] = [onMiddle(axis, 0), onMiddle(axis, axis.lengthM)]
  const found: { part: BedPart; fromM: number; toM: number }[] = []
  for (const { corners, fromM, toM } of cutLineAt(middle, crossingsM(middle, cut))) {
    const part = parts.find(({ shape }) => within(shape.parts, middleAlong(corners)))
    const last = found.at(-1)
    if (last && last.part === part && last.toM === fromM) last.toM = toM
    else if (part) found.push({ part, fromM, toM })
  }
  const beside = parts
    .filter((part) => found.every((one) => one.part !== part))
    .map((part) => ({ part, ...extent(axis, part) }))
  return [...found, ...beside].map(({ part, fromM, toM }) => {
    const { fromM: low, toM: high } = extent(axis, part)
    const weight = beside.length > 0 ? areaM2(part.shape) / (high - low) : 1
    return { fromM, toM, weight, place: (a, b) => ({ bed: part.id, ...stretchIn(part, axis, a, b) }) }
  })
}

const onMiddle = ({ ux, uy, startM, middleM }: LongAxis, alongM: number): Metres => [
  ux * (startM + alongM) - uy * middleM,
  uy * (startM + alongM) + ux * middleM,
]

/** Metres along an axis, from its start. */
const along = ({ ux, uy, startM }: LongAxis, [x, y]: Metres) => ux * x + uy * y - startM

function extent(axis: LongAxis, { shape }: BedPart): { readonly fromM: number; readonly toM: number } {
  const all = shape.parts[0]!.map((at) => along(axis, at))
  return { fromM: Math.min(...all), toM: Math.max(...all) }
}

/** A stretch of the whole's middle in the metres of a part's own; none where the part's axis runs rather across the whole's. */
function stretchIn({ shape }: BedPart, whole: LongAxis, aM: number, bM: number) {
  const own = longAxis(shape.parts[0]!)
  if (!own || Math.abs(own.ux * whole.ux + own.uy * whole.uy) < Math.SQRT1_2) return { from_m: null, to_m: null }
  const ends = [aM, bM].map((m) => Math.min(own.lengthM, Math.max(0, along(own, onMiddle(whole, m)))))
  return { from_m: Math.min(...ends), to_m: Math.max(...ends) }
}
