import type { Geometry, LineString } from 'geojson'
import type { AnyRecord } from '../../../../geo/model/kind.ts'
import { longAxis } from '../../../../geo/plane/longAxis.ts'
import type { Metres } from '../../../../geo/plane/lonLat.ts'
import type { Plane } from '../../../../geo/plane/plane.ts'
import type { Edit } from '../../../desk/door.ts'
import { areaM2, lineLengthM } from '../../../draw/measureShape.ts'
import { within } from '../../../draw/ops/cutRing.ts'
import { middleOf } from '../../../draw/ops/moved.ts'
import { middleAlong } from '../../../draw/ops/shareInside.ts'
import { splitArea } from '../../../draw/ops/splitArea.ts'
import { crossingsM, cutLineAt, type LinePiece } from '../../../draw/ops/splitLine.ts'
import type { EditKind } from '../../../draw/session.ts'
import { type EditGeometry, geometryOf, isArea, polygonsOf, type Shape, shapeOf } from '../../../draw/shape.ts'
import { copyOf } from './copyOf.ts'
import { shareLoose } from './shareLoose.ts'
import { shareStretch } from './shareStretch.ts'

/** What refers to the thing that is cut, or to its rows. */
export interface Dependents {
  readonly beds: readonly AnyRecord[]
  readonly rows: readonly AnyRecord[]
  /** Of the rows, and of the bed alone. */
  readonly plantings: readonly AnyRecord[]
  readonly dressings: readonly AnyRecord[]
}

export interface SplitChoices {
  /** Which part stays the same record, with all that belongs to the whole. */
  readonly keeper: number
  /** The other parts' names, in their order. */
  readonly names: readonly string[]
  /** A planting that stands on both sides becomes two; else it stays, shorter, where most of it stands. */
  readonly cutPlantings: boolean
  /** A dressing was given to every part; else it stays with the keeper. */
  readonly dressAll: boolean
}

export interface SplitInto {
  /** Largest first. */
  readonly parts: readonly Shape[]
  readonly shape: Shape
  readonly cut: readonly Metres[]
}

/** The parts that a cut leaves of a thing, largest (or longest) first. */
export function splitInto(geometry: Geometry, by: LineString, plane: Plane): SplitInto {
  const shape = shapeOf(geometry as EditGeometry, plane)
  const cut = shapeOf(by, plane).parts[0]!
  if (!isArea(shape)) {
    const line = shape.parts[0]!
    const pieces = [...cutLineAt(line, crossingsM(line, cut))].sort((a, b) => b.toM - b.fromM - (a.toM - a.fromM))
    return { shape, cut, parts: pieces.map(({ corners }): Shape => ({ type: 'LineString', parts: [corners] })) }
  }
  const parts = polygonsOf(shape)
    .flatMap((rings) => splitArea(rings, cut))
    .map((rings): Shape => ({ type: 'Polygon', parts: rings }))
    .sort((a, b) => areaM2(b) - areaM2(a))
  return { shape, cut, parts }
}

interface Cutting {
  readonly plane: Plane
  readonly newId: () => string
  readonly choices: SplitChoices
}

/** The edits of a split: the keeper changes its shape, every other part is a new record, and what stood in the whole goes to the part where it stands. */
export function splitEdits(
  kind: EditKind,
  record: AnyRecord,
  { parts, cut, shape }: SplitInto,
  standing: Dependents,
  how: Cutting,
): readonly Edit[] {
  const { plane, newId, choices } = how
  const order = [choices.keeper, ...parts.keys()].filter((n, i, all) => all.indexOf(n) === i)
  const ids = new Map(order.map((n, i) => [n, i === 0 ? record.id : newId()]))
  const { ord: _, ...plain } = record as AnyRecord & { ord?: unknown }
  const made = order.slice(1).map((n, i): Edit => {
    const named = 'name' in record && record.name !== null ? { name: choices.names[i] ?? record.name } : {}
    return { do: 'add', kind, record: { ...plain, ...named, id: ids.get(n)!, geom: geometryOf(parts[n]!, plane) } }
  })
  const kept: Edit = { do: 'change', kind, id: record.id, to: { geom: geometryOf(parts[choices.keeper]!, plane) } }
  const holderOf = (at: Metres): string =>
    ids.get(parts.findIndex((part) => isArea(part) && within(part.parts, at))) ?? record.id
  switch (kind) {
    case 'fields':
      return [
        ...made,
        kept,
        ...standing.beds.flatMap((bed) => movedTo(bed, 'field', holderOf(middleOfArea(bed, plane)), 'beds')),
      ]
    case 'beds': {
      const rows = standing.rows.flatMap((row) => cutRow(row, cut, holderOf, standing.plantings, how))
      const loose = standing.plantings.filter((planting) => planting.row === null || planting.row === undefined)
      const split = { whole: shape, cut, parts: order.map((n) => ({ id: ids.get(n)!, shape: parts[n]! })) }
      return [
        ...made,
        ...rows,
        kept,
        ...loose.flatMap((planting) => shareLoose(planting, split, choices.cutPlantings, newId)),
        ...(choices.dressAll
          ? standing.dressings.flatMap((dressing) =>
              order.slice(1).map((n): Edit => copyOf('dressings', dressing, newId(), { bed: ids.get(n)! })),
            )
          : []),
      ]
    }
    case 'rows': {
      const line = shape.parts[0]!
      const pieces = cutLineAt(line, crossingsM(line, cut))
      const idOf = (piece: LinePiece) =>
        ids.get(
          parts.findIndex(
            (part) =>
              lineLengthM(part.parts[0]!) === lineLengthM(piece.corners) && part.parts[0]![0] === piece.corners[0],
          ),
        ) ?? record.id
      const held = pieces.map((piece) => ({ id: idOf(piece), fromM: piece.fromM, toM: piece.toM }))
      return [
        ...made,
        ...standing.plantings.flatMap((planting) => shareStretch(planting, held, choices.cutPlantings, newId)),
        kept,
      ]
    }
    default:
      return [...made, kept]
  }
}

const middleOfArea = (record: AnyRecord, plane: Plane): Metres => {
  const ring = shapeOf(record.geom as EditGeometry, plane).parts[0] ?? []
  const axis = longAxis(ring)
  if (!axis) return middleOf(ring)
  const along = axis.startM + axis.lengthM / 2
  return [axis.ux * along - axis.uy * axis.middleM, axis.uy * along + axis.ux * axis.middleM]
}

const movedTo = (record: AnyRecord, field: string, id: string, kind: string): Edit[] =>
  record[field] === id ? [] : [{ do: 'change', kind, id: record.id, to: { [field]: id } }]

/** A row of a bed that is cut: its pieces go to the parts that they lie in, the longest stays the same row; its plantings follow. */
function cutRow(
  row: AnyRecord,
  cut: readonly Metres[],
  holderOf: (at: Metres) => string,
  plantings: readonly AnyRecord[],
  { plane, newId, choices }: Cutting,
): Edit[] {
  const line = shapeOf(row.geom as LineString, plane).parts[0] ?? []
  const held: { bed: string; corners: Metres[]; fromM: number; toM: number }[] = []
  for (const piece of cutLineAt(line, crossingsM(line, cut))) {
    const bed = holderOf(middleAlong(piece.corners))
    const last = held.at(-1)
    if (last?.bed === bed) {
      last.corners.push(...piece.corners.slice(1))
      last.toM = piece.toM
    } else held.push({ bed, corners: [...piece.corners], fromM: piece.fromM, toM: piece.toM })
  }
  if (held.length === 1) return movedTo(row, 'bed', held[0]!.bed, 'rows')
  const longest = held.reduce((a, b) => (b.toM - b.fromM > a.toM - a.fromM ? b : a))
  const pieces = held.map((piece) => ({ ...piece, id: piece === longest ? row.id : newId() }))
  const geom = (corners: readonly Metres[]) => geometryOf({ type: 'LineString', parts: [corners] }, plane)
  const stretches = plantings.filter((planting) => planting.row === row.id)
  return [
    ...pieces.flatMap(({ id, bed, corners }): Edit[] =>
      id === row.id ? [] : [copyOf('rows', row, id, { bed, geom: geom(corners) })],
    ),
    ...stretches.flatMap((planting) => shareStretch(planting, pieces, choices.cutPlantings, newId)),
    { do: 'change', kind: 'rows', id: row.id, to: { bed: longest.bed, geom: geom(longest.corners) } },
  ]
}
