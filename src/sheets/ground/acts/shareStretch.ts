import type { AnyRecord } from '../../../../geo/model/kind.ts'
import type { Edit } from '../../../desk/door.ts'
import { copyOf } from './copyOf.ts'

/** A piece of a row that was cut: the row that it becomes, and where it lay along the whole. */
export interface RowPiece {
  readonly id: string
  readonly fromM: number
  readonly toM: number
}

/** Where a planting goes when its row is cut: see `shareAlong`; metres are told from the piece's start. */
export function shareStretch(
  planting: AnyRecord,
  pieces: readonly RowPiece[],
  cut: boolean,
  newId: () => string,
): readonly Edit[] {
  // One that was told of the whole row stands in the whole of each piece.
  const told = typeof planting.from_m === 'number' || typeof planting.to_m === 'number'
  const along = pieces.map(({ id, fromM, toM }): Piece => {
    const place = (a: number, b: number) =>
      told ? { row: id, from_m: a - fromM, to_m: b - fromM } : { row: id, from_m: null, to_m: null }
    return { fromM, toM, weight: 1, place }
  })
  return shareAlong(planting, along, cut, newId)
}

/** A piece of what was cut, by where it lay along the whole. */
export interface Piece {
  readonly fromM: number
  readonly toM: number
  /** How much a metre of it counts when plants are shared. */
  readonly weight: number
  /** The fields of a planting that stands in it from `aM` to `bM` of the whole. */
  place(aM: number, bM: number): Readonly<Record<string, unknown>>
}

/** A stretch shorter than this is the rounding of places. */
const LEAST_M = 0.01

/**
 * Where a planting goes when what it stands in is cut: to the piece that its stretch lies in. One that lies in several
 * stays in the piece that holds most of it (its picks with it), and, where it is to be cut, goes on in the others as
 * plantings of their own, its plants shared by weighted metres.
 */
export function shareAlong(
  planting: AnyRecord,
  pieces: readonly Piece[],
  cut: boolean,
  newId: () => string,
): readonly Edit[] {
  const end = pieces.reduce((most, { toM }) => Math.max(most, toM), 0)
  const from = typeof planting.from_m === 'number' ? planting.from_m : 0
  const to = typeof planting.to_m === 'number' ? planting.to_m : end
  const held = pieces
    .map((piece) => ({ piece, a: Math.max(from, piece.fromM), b: Math.min(to, piece.toM) }))
    .filter(({ a, b }) => b - a > LEAST_M)
    .map((one) => ({ ...one, size: (one.b - one.a) * one.piece.weight }))
    .sort((x, y) => y.size - x.size)
  const [most] = held
  if (!most) return []
  const place = ({ piece, a, b }: typeof most) => piece.place(a, b)
  const others = cut ? held.slice(1) : []
  const whole = [most, ...others].reduce((sum, { size }) => sum + size, 0)
  const plants = planting.plants
  const shares = others.map(({ size }) => (typeof plants === 'number' ? Math.round((plants * size) / whole) : null))
  const left =
    typeof plants === 'number' && others.length > 0
      ? plants - shares.reduce<number>((sum, n) => sum + (n ?? 0), 0)
      : plants
  return [
    {
      do: 'change',
      kind: 'plantings',
      id: planting.id,
      to: { ...place(most), ...(left === plants ? {} : { plants: left }) },
    },
    ...others.map((one, n) => copyOf('plantings', planting, newId(), { ...place(one), plants: shares[n] ?? null })),
  ]
}
