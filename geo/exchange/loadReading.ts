import { farm as farmKind } from '../model/farm.ts'
import type { AnyRecord } from '../model/kind.ts'
import { KINDS } from '../model/kinds.ts'
import type { LonLat } from '../plane/lonLat.ts'
import { PLANE_SRID } from '../plane/plane.ts'
import type { Database } from '../store/database.ts'
import { gatherStatistics } from '../store/gatherStatistics.ts'
import { insertRecords, openStep } from '../store/row.ts'
import { setPlane } from '../store/setPlane.ts'
import type { Fault, Reading } from './archive.ts'
import { checkInPlane } from './checkInPlane.ts'
import { byFile, gatherFaults } from './faults.ts'
import { soundPart } from './soundPart.ts'

/** What loading came to. `loaded` is null where nothing was, else how many records of each kind. */
export interface Loading {
  readonly loaded: Readonly<Record<string, number>> | null
  /** All faults, those of reading and those of the farm's plane, file by file. */
  readonly faults: readonly Fault[]
  /** All that was left out, with why (see `Reading`); empty unless `partial`. */
  readonly leftOut: readonly Fault[]
}

const NOT_LOADED = new Error('nothing is loaded')

/**
 * Loads an archive that was read into a database without a farm, in one transaction: all of it, or nothing where there is
 * any fault; with `partial` all that is sound. Sets the farm's plane. After a failed load take a new database, since the
 * engine keeps a plane that it has used; one with another plane is refused by throwing. It is the farm's first state and
 * stands in no journal. Of those that show in the plane, at most `most` faults of a file are listed.
 */
export async function loadReading(
  db: Database,
  reading: Reading,
  options: { readonly partial: boolean; readonly most?: number },
): Promise<Loading> {
  const found = gatherFaults(options.most)
  let loading: Loading | null = null
  await db
    .transaction(async (tx) => {
      await refuseFarm(tx)
      if (reading.origin) {
        await usePlane(tx, reading.origin)
        await checkInPlane(tx, reading.drafts, found)
      }
      const faults = byFile([...reading.faults, ...found.all()])
      if (!reading.content || (faults.length > 0 && !options.partial)) {
        loading = { loaded: null, faults, leftOut: [] }
        throw NOT_LOADED
      }
      const { records, leftOut } = soundPart(reading.drafts, reading.unreadable)
      await insertFarm(tx, reading.content.farm as unknown as AnyRecord, records)
      const loaded = Object.fromEntries([...records].map(([kind, list]) => [kind, list.length]))
      loading = { loaded, faults, leftOut: byFile([...reading.lost, ...leftOut]) }
    })
    .catch((error: unknown) => {
      if (error !== NOT_LOADED) throw error
    })
  return loading!
}

async function refuseFarm(tx: Database): Promise<void> {
  const farms = await tx.rows<{ name: string }>('select name from farm')
  if (farms[0]) throw new Error(`this database holds the farm ${JSON.stringify(farms[0].name)} already`)
}

/** Sets the plane and makes sure that the engine takes that one, not one that it kept from before. */
async function usePlane(tx: Database, [lon, lat]: LonLat): Promise<void> {
  await setPlane(tx, [lon, lat])
  const [at] = await tx.rows<{ off_m: number }>(
    `select sqrt(st_x(p) ^ 2 + st_y(p) ^ 2) as off_m
     from st_transform(st_setsrid(st_makepoint($1, $2), 4326), ${PLANE_SRID}) as p`,
    [lon, lat],
  )
  if (!(at!.off_m < 0.001)) throw new Error('this database has used the plane of another farm; open a new one')
}

async function insertFarm(
  tx: Database,
  farm: AnyRecord,
  records: ReadonlyMap<string, readonly AnyRecord[]>,
): Promise<void> {
  await openStep(tx, 'load')
  await insertRecords(tx, farmKind, [farm])
  for (const kind of KINDS) await insertRecords(tx, kind, records.get(kind.name) ?? [])
  await tx.rows('set constraints all immediate')
  await gatherStatistics(tx)
}
