import type { AnyRecord } from '../model/kind.ts'
import type { Observation } from '../model/observations.ts'
import type { Database } from '../store/database.ts'
import type { CardBody } from './card.ts'
import { SEEN_WITHIN_M } from './inBeds.ts'

/** Something seen: when, how bad it was, and the beds that it lies in or beside. */
export async function observationCard(db: Database, record: AnyRecord): Promise<CardBody> {
  const seen = record as unknown as Observation
  const beds = await db.rows<{ name: string }>(
    `select b.name from observations o join beds b on st_dwithin(b.plan, o.plan, ${SEEN_WITHIN_M})
     where o.id = $1 order by st_distance(b.plan, o.plan), b.ord`,
    [seen.id],
  )
  return {
    title: seen.kind,
    subtitle: beds.map(({ name }) => name).join(', '),
    lines: [
      { label: 'day', value: seen.on, unit: 'day' },
      { label: 'severity', value: seen.severity === null ? null : `${seen.severity} of 5` },
      ...(seen.note === null ? [] : [{ label: 'note', value: seen.note }]),
    ],
    tables: [],
  }
}
