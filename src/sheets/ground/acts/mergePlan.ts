import type { AnyRecord } from '../../../../geo/model/kind.ts'
import { KINDS } from '../../../../geo/model/kinds.ts'
import type { Plane } from '../../../../geo/plane/plane.ts'
import type { Edit } from '../../../desk/door.ts'
import { distanceM } from '../../../draw/measureShape.ts'
import { joinAreas } from '../../../draw/ops/joinAreas.ts'
import type { EditKind } from '../../../draw/session.ts'
import { type EditGeometry, geometryOf, type Shape, shapeOf } from '../../../draw/shape.ts'
import { footOn } from '../../../draw/snap.ts'
import type { HeldThing } from '../../state/placed.ts'

/** A field by which records of a kind stand on another: all that must change hands when two become one. */
export interface Reference {
  readonly kind: string
  readonly field: string
}

export const referencesTo = (kind: EditKind): readonly Reference[] =>
  KINDS.flatMap(({ name, fields }) =>
    Object.entries(fields).flatMap(([field, { refers }]) => (refers === kind ? [{ kind: name, field }] : [])),
  )

export interface Joined {
  readonly shape: Shape
  /** How far apart the parts lie at their nearest, where the whole is not in one piece. */
  readonly gapM: number | null
}

/** Several areas as one shape. */
export function joined(things: readonly HeldThing[], plane: Plane): Joined {
  const shapes = things.map(({ geometry }) => shapeOf(geometry as EditGeometry, plane))
  const shape = joinAreas(shapes)
  return { shape, gapM: shape.type === 'MultiPolygon' ? gapOf(shapes) : null }
}

/** The widest of the gaps that keep shapes apart: from each to the nearest other. */
function gapOf(shapes: readonly Shape[]): number {
  const from = (one: Shape, other: Shape) =>
    Math.min(
      ...one.parts
        .flat()
        .flatMap((at) =>
          other.parts.flatMap((ring) =>
            ring.map((a, i) => distanceM(at, footOn([a, ring[(i + 1) % ring.length]!], at))),
          ),
        ),
    )
  return Math.max(
    ...shapes.map((one) =>
      Math.min(...shapes.flatMap((other) => (other === one ? [] : [from(one, other), from(other, one)]))),
    ),
  )
}

/** The edits of a merge: what referred to the others refers to the keeper, which takes the whole ground and their notes; the others go. */
export function mergeEdits(
  things: readonly HeldThing[],
  keeper: number,
  shape: Shape,
  referring: readonly { readonly reference: Reference; readonly records: readonly AnyRecord[] }[],
  plane: Plane,
): readonly Edit[] {
  const kept = things[keeper]!
  const others = things.filter((thing) => thing !== kept)
  const notes = [kept, ...others]
    .map(({ record }) => record.note)
    .filter((note) => typeof note === 'string' && note !== '')
  return [
    ...referring.flatMap(({ reference: { kind, field }, records }) =>
      records.map(({ id }): Edit => ({ do: 'change', kind, id, to: { [field]: kept.id } })),
    ),
    {
      do: 'change',
      kind: kept.kind,
      id: kept.id,
      to: { geom: geometryOf(shape, plane), ...(notes.length > 1 ? { note: notes.join('\n') } : {}) },
    },
    ...others.map(({ kind, id }): Edit => ({ do: 'remove', kind, id })),
  ]
}
