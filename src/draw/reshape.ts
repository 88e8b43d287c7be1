import type { Metres } from '../../geo/plane/lonLat.ts'
import { isArea, type Shape } from './shape.ts'

/** A place on an edited shape that can be taken hold of: a corner, the middle of an edge (which makes a new corner), or the whole. */
export type Handle =
  | { readonly at: 'corner'; readonly part: number; readonly corner: number }
  | { readonly at: 'middle'; readonly part: number; readonly after: number }
  | { readonly at: 'whole' }

export const sameHandle = (a: Handle | null, b: Handle | null): boolean => JSON.stringify(a) === JSON.stringify(b)

const least = (shape: Shape): number => (isArea(shape) ? 3 : shape.type === 'LineString' ? 2 : 1)

const withParts = (shape: Shape, change: (corners: readonly Metres[], part: number) => readonly Metres[]): Shape =>
  ({ ...shape, parts: shape.parts.map(change) }) as Shape

/** Every handle with its place, corners first and in order. */
export function handlesOf(shape: Shape): readonly (readonly [Handle, Metres])[] {
  const corners: [Handle, Metres][] = []
  const middles: [Handle, Metres][] = []
  shape.parts.forEach((list, part) => {
    list.forEach((at, corner) => {
      corners.push([{ at: 'corner', part, corner }, at])
      const next = list[corner + 1] ?? (isArea(shape) ? list[0] : undefined)
      if (next && shape.type !== 'Point')
        middles.push([{ at: 'middle', part, after: corner }, [(at[0] + next[0]) / 2, (at[1] + next[1]) / 2]])
    })
  })
  if (shape.type === 'Point') return corners
  return [...corners, ...middles, [{ at: 'whole' }, wholeAt(shape.parts.flat())]]
}

/** Where the whole is taken hold of: a third of the way from the middle to the first corner, clear of the sides' middles in a narrow strip. */
function wholeAt(corners: readonly Metres[]): Metres {
  const middle = (axis: 0 | 1) => {
    const all = corners.map((p) => p[axis])
    return (Math.min(...all) + Math.max(...all)) / 2
  }
  const [east, north] = [middle(0), middle(1)]
  const [first] = corners
  return first ? [east + (first[0] - east) / 3, north + (first[1] - north) / 3] : [east, north]
}

/** The shape with a handle brought to a place, and the handle that is then held: a middle has become a corner. */
export function moveHandle(
  shape: Shape,
  handle: Handle,
  to: Metres,
): { readonly shape: Shape; readonly handle: Handle } {
  if (handle.at === 'whole') {
    const from = handlesOf(shape).find(([h]) => h.at === 'whole')?.[1] ?? to
    const by: Metres = [to[0] - from[0], to[1] - from[1]]
    return { shape: withParts(shape, (list) => list.map((p) => [p[0] + by[0], p[1] + by[1]])), handle }
  }
  if (handle.at === 'middle') {
    const corner: Handle = { at: 'corner', part: handle.part, corner: handle.after + 1 }
    const grown = withParts(shape, (list, part) =>
      part === handle.part ? list.toSpliced(handle.after + 1, 0, to) : list,
    )
    return { shape: grown, handle: corner }
  }
  return {
    shape: withParts(shape, (list, part) => (part === handle.part ? list.with(handle.corner, to) : list)),
    handle,
  }
}

/** The shape without a corner, or as it was where it would no longer be one. */
export function dropCorner(shape: Shape, handle: Handle): Shape {
  if (handle.at !== 'corner') return shape
  const list = shape.parts[handle.part]
  if (!list || list.length <= least(shape)) return shape
  return withParts(shape, (corners, part) => (part === handle.part ? corners.toSpliced(handle.corner, 1) : corners))
}

/** The corner before one along its line or ring, from which a typed length is laid off; null before a line's first. */
export function cornerBefore(shape: Shape, handle: Handle): Metres | null {
  if (handle.at !== 'corner') return null
  const list = shape.parts[handle.part]
  return list?.[handle.corner - 1] ?? (isArea(shape) ? (list?.at(-1) ?? null) : null)
}
