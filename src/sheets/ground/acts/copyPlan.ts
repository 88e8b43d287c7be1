import type { Geometry } from 'geojson'
import type { AnyRecord } from '../../../../geo/model/kind.ts'
import type { Metres } from '../../../../geo/plane/lonLat.ts'
import type { Plane } from '../../../../geo/plane/plane.ts'
import type { Edit } from '../../../desk/door.ts'
import { motion } from '../../../draw/ops/moved.ts'
import { placeGeometry } from '../../../draw/placeGeometry.ts'
import type { HeldThing } from '../../state/placed.ts'
import { nextName } from '../nextName.ts'

export interface Copy {
  readonly kind: HeldThing['kind']
  readonly geometry: Geometry
}

/** Things and the rows of copied beds, moved by each of some shifts. */
export function copiesAt(
  things: readonly HeldThing[],
  rows: readonly AnyRecord[],
  shifts: readonly Metres[],
  plane: Plane,
): readonly Copy[] {
  return shifts.flatMap((by) => {
    const to = motion({ about: [0, 0], turnDeg: 0, by })
    return [
      ...things.map(({ kind, geometry }): Copy => ({ kind, geometry: placeGeometry(geometry, plane, to) })),
      ...rows.flatMap(({ geom }): Copy[] => (geom ? [{ kind: 'rows', geometry: placeGeometry(geom, plane, to) }] : [])),
    ]
  })
}

/** The edits that make copies: new records with the same values, names counted on; a bed's rows go with their own copy of it. Plantings are not copied. */
export function copyEdits(
  things: readonly HeldThing[],
  rows: readonly AnyRecord[],
  shifts: readonly Metres[],
  namesIn: (thing: HeldThing) => readonly string[],
  plane: Plane,
  newId: () => string,
): readonly Edit[] {
  const names = new Map<string, string[]>()
  return shifts.flatMap((by) => {
    const to = motion({ about: [0, 0], turnDeg: 0, by })
    const place = (geometry: Geometry) => placeGeometry(geometry, plane, to)
    return things.flatMap((thing): Edit[] => {
      const { kind, record, geometry } = thing
      const among = `${kind} ${String(record.field ?? '')}`
      const taken = names.get(among) ?? [...namesIn(thing)]
      names.set(among, taken)
      const id = newId()
      const { ord: _, ...plain } = record as AnyRecord & { ord?: unknown }
      const name = typeof record.name === 'string' && record.name !== '' ? nextNameAfter(record.name, taken) : null
      if (name) taken.push(name)
      const mine = kind === 'beds' ? rows.filter((row) => row.bed === record.id) : []
      return [
        { do: 'add', kind, record: { ...plain, id, geom: place(geometry), ...(name ? { name } : {}) } },
        ...mine.flatMap((row): Edit[] => {
          const { ord: _, ...plainRow } = row as AnyRecord & { ord?: unknown }
          const rowName =
            typeof row.name === 'string' && name ? { name: row.name.replace(String(record.name), name) } : {}
          return row.geom
            ? [
                {
                  do: 'add',
                  kind: 'rows',
                  record: { ...plainRow, ...rowName, id: newId(), bed: id, geom: place(row.geom) },
                },
              ]
            : []
        }),
      ]
    })
  })
}

/** The next name after one, counting its number on; without a number, from 2. */
function nextNameAfter(name: string, taken: readonly string[]): string {
  const stem = /\d$/.test(name) ? name.replace(/\d+$/, '') : `${name} `
  const alike = taken.filter((one) => one.startsWith(stem) && /^\d+$/.test(one.slice(stem.length)))
  return alike.length > 0 ? nextName(alike, stem) : `${stem}2`
}
