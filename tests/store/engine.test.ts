import { describe, expect, it } from 'vitest'
import { ENGINE, rollback, SERVER_ABSENT, useDatabase, withPlane } from './harness.ts'

const ORIGIN = [11.4, 46.2] as const
const ELSEWHERE = [-71.5, -33.4] as const

const atOrigin = ([lon, lat]: readonly [number, number]) =>
  `select st_x(at) as "eastM", st_y(at) as "northM"
   from st_transform(st_setsrid(st_makepoint(${lon}, ${lat}), 4326), 990001) as at`

describe.skipIf(SERVER_ABSENT)('the engine these tests run on', () => {
  const farm = useDatabase(ORIGIN)

  it('is the one that the project names, with PostGIS 3.3 or newer', async () => {
    expect(farm.db.kind).toBe(ENGINE)
    const [said] = await farm.db.rows<{ version: string }>('select postgis_lib_version() as version')
    expect(Number.parseFloat(said!.version)).toBeGreaterThanOrEqual(3.3)
  })

  it('gives each database the plane of its own farm', async () => {
    const [here] = await farm.db.rows<{ eastM: number; northM: number }>(atOrigin(ORIGIN))
    expect(Math.hypot(here!.eastM, here!.northM)).toBeLessThan(1e-6)
    await withPlane(ELSEWHERE, async (db) => {
      const [at] = await db.rows<{ eastM: number; northM: number }>(atOrigin(ELSEWHERE))
      expect(Math.hypot(at!.eastM, at!.northM)).toBeLessThan(1e-6)
    })
  })

  it('keeps nothing of what is rolled back', async () => {
    const inside = await rollback(farm.db, async (tx) => {
      await tx.rows(`insert into steps (id, clock, device, label) values ('s', 'c', 'd', 'a step')`)
      return tx.rows('select id from steps')
    })
    expect(inside).toEqual([{ id: 's' }])
    expect(await farm.db.rows('select id from steps')).toEqual([])
  })

  it('hands on what fails within a rolled back transaction', async () => {
    await expect(rollback(farm.db, (tx) => tx.rows('select 1 / 0'))).rejects.toMatchObject({ sqlState: '22012' })
    expect(await farm.db.rows('select 1 as one')).toEqual([{ one: 1 }])
  })
})
