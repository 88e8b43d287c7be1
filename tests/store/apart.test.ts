import { expect, it } from 'vitest'
import { clearance } from '../../geo/measure/clearance.ts'
import { load } from './farmOf.ts'
import { rollback, SERVER_ABSENT, useDatabase } from './harness.ts'

const held = useDatabase([15, 47])

const box = (lon: number, lat: number) => {
  const [east, north] = [lon + 0.0001, lat + 0.0001]
  const ring = [
    [lon, lat],
    [east, lat],
    [east, north],
    [lon, north],
    [lon, lat],
  ]
  return { type: 'Polygon' as const, coordinates: [ring] }
}

// The embedded engine can't plan such a join where statistics of both columns are kept (migration 0005).
it.skipIf(SERVER_ABSENT)('joins tables whose shapes lie apart after they were analyzed', () =>
  rollback(held.db, async (tx) => {
    await load(tx, {
      farm: [{ id: 'farm', name: 'Made', units: 'metric', season_start_month: 1 }],
      fields: [{ id: 'f', name: 'F', geom: box(15, 47) }],
      beds: [{ id: 'b', field: 'f', name: 'B', geom: box(15, 47) }],
      trees: [
        { id: 't', species: 'Juglans nigra', geom: { type: 'Point', coordinates: [15.0002, 47.00005] } },
        { id: 'u', species: 'Corylus avellana', geom: { type: 'Point', coordinates: [15.0003, 47.0001] } },
      ],
    })
    await tx.rows('analyze')
    for (const place of ['plan', 'geom'])
      for (const near of [`st_dwithin(t.${place}, b.${place}, 30)`, `t.${place} && b.${place}`])
        expect(await tx.rows(`select t.id from trees t join beds b on ${near} where t.id = 'none'`)).toEqual([])
    expect((await clearance(tx, '2026-07-01')).map(({ bed, tree }) => [bed, tree])).toEqual([['b', 't']])
  }),
)

it.skipIf(SERVER_ABSENT)('keeps no statistics of any column with shapes', async () => {
  const kept = await held.db.rows(
    `select attrelid::regclass::text as relation, attname from pg_attribute join pg_class c on c.oid = attrelid
     where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace and atttypid = 'geometry'::regtype
       and attnum > 0 and attstattarget is distinct from 0`,
  )
  expect(kept).toEqual([])
})
