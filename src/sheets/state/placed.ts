import type { AnyRecord } from '../../../geo/model/kind.ts'
import type { EditKind, PlacedThing } from '../../draw/session.ts'
import type { Thing, ThingKind } from '../../map/farmMap.ts'
import { recordsWith } from './riders.ts'

/** A thing with its record: what it is, and where exactly. */
export interface HeldThing extends PlacedThing {
  readonly record: AnyRecord
}

const hasPlace = (kind: ThingKind): kind is EditKind => kind !== 'plantings' && kind !== 'picks'

/** The records of things, in their order; what has no place of its own, or is gone, is left out. */
export async function holdThings(things: readonly Thing[]): Promise<readonly HeldThing[]> {
  const kinds = [...new Set(things.map(({ kind }) => kind))].filter(hasPlace)
  const lists = await Promise.all(
    kinds.map(async (kind) => {
      const ids = things.flatMap((thing) => (thing.kind === kind ? [thing.id] : []))
      return [kind, new Map((await recordsWith(kind, 'id', ids)).map((record) => [record.id, record]))] as const
    }),
  )
  const byKind = new Map<string, ReadonlyMap<string, AnyRecord>>(lists)
  return things.flatMap(({ kind, id }) => {
    const record = byKind.get(kind)?.get(id)
    return record?.geom && hasPlace(kind) ? [{ kind, id, geometry: record.geom, record }] : []
  })
}
