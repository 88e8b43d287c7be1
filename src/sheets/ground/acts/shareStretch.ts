import type { AnyRecord } from '../../../../geo/model/kind.ts'
import type { Edit } from '../../../desk/door.ts'

/** A piece of a row that was cut: the row that it becomes, and where it lay along the whole. */
export interface RowPiece {
  readonly id: string
  readonly fromM: number
  readonly toM: number
}

/** A stretch shorter than this is the rounding of places. */
const LEAST_M = 0.01

/**
 * Where a planting of a row goes when the row is cut: to the piece that its stretch lies in, told in metres from that
 * piece's start. One that lies in several stays in the piece that holds most of it (its picks with it), and, where it is
 * to be cut, goes on in the others as plantings of their own, its plants shared by metres.
 */
export function shareStretch(
  planting: AnyRecord,
  pieces: readonly RowPiece[],
  cut: boolean,
  newId: () => string,
): readonly Edit[] {
  const end = pieces.reduce((most, { toM }) => Math.max(most, toM), 0)
  const from = typeof planting.from_m === 'number' ? planting.from_m : 0
  const to = typeof planting.to_m === 'number' ? planting.to_m : end
  const told = typeof planting.from_m === 'number' || typeof planting.to_m === 'number'
  const held = pieces
    .map((piece) => ({ piece, a: Math.max(from, piece.fromM), b: Math.min(to, piece.toM) }))
    .filter(({ a, b }) => b - a > LEAST_M)
    .sort((x, y) => y.b - y.a - (x.b - x.a))
  const [most] = held
  if (!most) return []
  const place = ({ piece, a, b }: typeof most) => {
    // One that was told of the whole row stands in the whole of each piece.
    return { row: piece.id, from_m: told ? a - piece.fromM : null, to_m: told ? b - piece.fromM : null }
  }
  const others = cut ? held.slice(1) : []
  const metres = [most, ...others].reduce((sum, { a, b }) => sum + b - a, 0)
  const plants = planting.plants
  const shares = others.map(({ a, b }) => (typeof plants === 'number' ? Math.round((plants * (b - a)) / metres) : null))
  const left =
    typeof plants === 'number' && others.length > 0
      ? plants - shares.reduce<number>((sum, n) => sum + (n ?? 0), 0)
      : plants
  const { ord: _, ...plain } = planting as AnyRecord & { ord?: unknown }
  return [
    {
      do: 'change',
      kind: 'plantings',
      id: planting.id,
      to: { ...place(most), ...(left === plants ? {} : { plants: left }) },
    },
    ...others.map(
      (one, n): Edit => ({
        do: 'add',
        kind: 'plantings',
        record: { ...plain, ...place(one), plants: shares[n] ?? null, id: newId() },
      }),
    ),
  ]
}
