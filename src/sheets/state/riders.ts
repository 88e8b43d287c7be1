import { computed, signal } from '@preact/signals'
import type { Polygon } from 'geojson'
import type { AnyRecord } from '../../../geo/model/kind.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'
import type { PlacedThing } from '../../draw/session.ts'
import { type Rider, ridersOf } from '../ground/ridersOf.ts'
import { ask } from './door.ts'
import { takesAlong } from './drawChoices.ts'
import { openFarm } from './farm.ts'

/** What stands in the beds that are being moved or reshaped. */
export const riders = signal<readonly Rider[]>([])
/** What of it goes along, as chosen. */
export const along = computed<readonly PlacedThing[]>(() => riders.value.filter(({ kind }) => takesAlong.value[kind]))

/** Records that lie over beds. Throws as `recordsWith`. */
async function recordsOverBeds(kind: string, ids: readonly string[]): Promise<readonly AnyRecord[]> {
  const reply = await ask('recordsOver', { kind, over: 'beds', ids })
  if (!reply.ok) throw new Error(reply.fault.detail)
  return reply.value
}

/** Records by their id, or by what they refer to in a field. Throws where they can't be read: what stands on something must never be taken for nothing. */
export async function recordsWith(kind: string, by: string, ids: readonly string[]): Promise<readonly AnyRecord[]> {
  if (ids.length === 0) return []
  const reply = await ask('recordsWith', { kind, by, ids })
  if (!reply.ok) throw new Error(reply.fault.detail)
  return reply.value
}

/** What stands in things and may go along: in beds always, in fields (with their beds) where they are moved. What is moved itself is not counted. */
export async function askRiders(things: readonly PlacedThing[], how: 'move' | 'reshape'): Promise<readonly Rider[]> {
  const origin = openFarm.value?.origin
  const fields = new Set(how === 'move' ? things.filter(({ kind }) => kind === 'fields').map(({ id }) => id) : [])
  const moved = new Set(things.map(({ kind, id }) => `${kind} ${id}`))
  if (!origin || !things.some(({ kind, id }) => kind === 'beds' || fields.has(id))) return []
  const beds = await recordsWith('beds', 'field', [...fields])
  const held = beds.flatMap(({ id, geom }): Rider[] =>
    geom && !moved.has(`beds ${id}`) ? [{ kind: 'beds', id, bed: id, geometry: geom }] : [],
  )
  const grounds = [...things, ...held].flatMap(({ kind, id, geometry }) =>
    kind === 'beds' && geometry.type === 'Polygon' ? [{ id, geometry: geometry as Polygon }] : [],
  )
  const ids = grounds.map(({ id }) => id)
  const [rows, supports, trees] = await Promise.all([
    recordsWith('rows', 'bed', ids),
    recordsOverBeds('supports', ids),
    recordsOverBeds('trees', ids),
  ])
  const standing = ridersOf(grounds, { rows, supports, trees }, planeAbout(origin))
  return [...held, ...standing.filter(({ kind, id }) => !moved.has(`${kind} ${id}`))]
}
