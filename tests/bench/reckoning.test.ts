import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest'
import { clearance } from '../../geo/measure/clearance.ts'
import { measure } from '../../geo/measure/measure.ts'
import type { Database } from '../../geo/store/database.ts'
import { migrate } from '../../geo/store/migrate.ts'
import { openNodeDatabase } from '../../geo/store/template/nodeEngine.ts'
import { readMigrations } from '../../geo/store/template/readMigrations.ts'
import { reckonYield } from '../../geo/yield/reckonYield.ts'
import { resmoothed } from '../../geo/yield/yieldReport.ts'
import { newOnServer } from '../store/harness.ts'
import { BIG } from './bigFarm.ts'
import { ms, timed, useFigures } from './figures.ts'
import { loadBig } from './loadBig.ts'

const DAY = '2025-08-01'
const MOST_MS = 2000

/** What is reckoned: a name, and the work. */
const PARTS = {
  measure: (db: Database) => measure(db, DAY),
  clearance: (db: Database) => clearance(db, DAY),
  'yield surface': (db: Database) => reckonYield(db, { season: 2025 }),
} as const

type Times = Record<string, { coldMs: number; bestMs: number }>
const sum = (times: Times, which: 'coldMs' | 'bestMs') =>
  Object.values(times).reduce((total, part) => total + part[which], 0)

describe(`a farm of ${BIG.beds} beds, ${BIG.trees} trees and ${BIG.picks} picks`, () => {
  const open: { embedded?: Database; server?: Database } = {}
  const tell = useFigures()
  beforeAll(async () => {
    open.embedded = await openNodeDatabase()
    await loadBig(open.embedded)
    tell('the embedded engine', await versionOf(open.embedded), '')
    if (!inject('databaseUrl')) return
    open.server = await newOnServer()
    await migrate(open.server, await readMigrations())
    await loadBig(open.server)
    tell('the server', await versionOf(open.server), '')
  })
  afterAll(async () => {
    for (const db of Object.values(open)) await db.close()
  })
  const times: { embedded?: Times; server?: Times } = {}

  it('is measured, its clearances and its yield surface reckoned within two seconds', async () => {
    const db = open.embedded!
    times.embedded = await timesOf(db)
    for (const [part, { coldMs, bestMs }] of Object.entries(times.embedded))
      tell(`${part}, embedded engine`, `${ms(bestMs)} (the first time ${ms(coldMs)})`, '')
    const [best, cold] = [sum(times.embedded, 'bestMs'), sum(times.embedded, 'coldMs')]
    tell('measure + clearance + yield surface', `${ms(best)} (the first time ${ms(cold)})`, `< ${ms(MOST_MS)}`)
    const { report } = await reckonYield(db, { season: 2025 })
    expect(report.beds).toHaveLength(BIG.beds)
    expect(report.totalKg).toBeGreaterThan(BIG.picks)
    expect(best).toBeLessThan(MOST_MS)
  })

  it('is smoothed anew within half a second when a slider moves, nothing else being reckoned', async () => {
    const { report } = await reckonYield(open.embedded!, { season: 2025 })
    for (const smoothM of [0.5, 1.5, 3, 5]) {
      const { bestMs } = await timed(async () => resmoothed(report, smoothM))
      tell(`surface of ${report.pieces.pieces.length} cells smoothed by ${smoothM} m`, ms(bestMs), '< 500 ms')
      expect(bestMs).toBeLessThan(500)
    }
  })

  it('is reckoned by the same SQL on a server, where one is at hand', async () => {
    if (!open.server || !times.embedded) return tell('the same on a server', 'none is at hand', '')
    times.server = await timesOf(open.server)
    for (const [part, { bestMs }] of Object.entries(times.server)) {
      const ratio = times.embedded[part]!.bestMs / bestMs
      tell(`${part}, server`, `${ms(bestMs)}; the embedded engine takes ${ratio.toFixed(2)} times as long`, '')
    }
    const ratio = sum(times.embedded, 'bestMs') / sum(times.server, 'bestMs')
    tell('embedded engine / server', `${ratio.toFixed(2)} times as long`, '')
    expect(await measure(open.server, DAY)).toMatchObject({ fields: { length: BIG.beds / 50 } })
  })
})

async function timesOf(db: Database): Promise<Times> {
  const times: Times = {}
  for (const [part, work] of Object.entries(PARTS)) times[part] = await timed(() => work(db))
  return times
}

async function versionOf(db: Database): Promise<string> {
  const [told] = await db.rows<{ version: string; postgis: string }>(
    'select version() as version, postgis_lib_version() as postgis',
  )
  return `${told!.version.split(' on ')[0]}, PostGIS ${told!.postgis}`
}
