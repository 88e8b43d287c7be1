import fc from 'fast-check'
import { afterEach, describe, expect, it } from 'vitest'
import { readCard } from '../../geo/cards/readCard.ts'
import { seasonBook } from '../../geo/cards/seasonBook.ts'
import { readArchive } from '../../geo/exchange/readArchive.ts'
import { readContent } from '../../geo/exchange/readContent.ts'
import { writeArchive } from '../../geo/exchange/writeArchive.ts'
import { readLayers } from '../../geo/layers/readLayers.ts'
import { touchedBy } from '../../geo/layers/touchedBy.ts'
import type { AnyRecord } from '../../geo/model/kind.ts'
import { applyEdits, type Edit } from '../../geo/store/edit.ts'
import { faultOf } from '../../geo/store/fault.ts'
import { DAYS, liveThrough, type Move } from '../unit/stock/oracle.ts'
import { emptyFarm } from './emptyFarm.ts'
import { load } from './farmOf.ts'
import { SERVER_ABSENT, useDatabase } from './harness.ts'

const held = SERVER_ABSENT ? null : useDatabase([15, 46])
afterEach(() => (held ? emptyFarm(held.db) : undefined))

const box = (x: number, y: number, w: number, h: number) => ({
  type: 'Polygon' as const,
  coordinates: [
    [
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
      [x, y],
    ],
  ],
})
const GROUND = {
  farm: [{ id: 'farm', name: 'Test', units: 'metric', currency: 'EUR', season_start_month: 1 }],
  crops: [{ id: 'tomato', name: 'Tomato', family: 'Solanaceae', climbs: true, juglone: 'sensitive' }],
  varieties: [{ id: 'red', crop: 'tomato', name: 'Red' }],
  fields: [{ id: 'f', name: 'Field', geom: box(15, 46, 0.002, 0.002) }],
  beds: [
    { id: 'b', field: 'f', name: 'B1', geom: box(15.0002, 46.0002, 0.001, 0.00002) },
    { id: 'b2', field: 'f', name: 'B2', geom: box(15.0002, 46.0003, 0.001, 0.00002) },
  ],
  rows: [
    {
      id: 'r',
      bed: 'b',
      side: 'middle',
      geom: {
        type: 'LineString',
        coordinates: [
          [15.0002, 46.00021],
          [15.0012, 46.00021],
        ],
      },
    },
  ],
}
let made = 0
const act = () => ({ id: `s${++made}`, clock: String(made).padStart(9, '0'), device: 'd', author: null, label: 'x' })

describe.skipIf(SERVER_ABSENT)('stock in the database', () => {
  it('takes moves in any order, back-dated ones too, just as far as plants lived through one by one (seeded)', async () => {
    const { db } = held!
    await load(db, { ...GROUND, stock_lots: [{ id: 'l', kind: 'hazel', row: 'r', count: 8 }] })
    const kinds = fc.constantFrom('sold', 'lifted', 'lost', 'reserved') as fc.Arbitrary<Move['move']>
    const deed = fc.record({
      do: fc.constantFrom('add', 'add', 'add', 'change', 'remove'),
      which: fc.nat(20),
      on: fc.constantFrom(...DAYS),
      move: kinds,
      count: fc.integer({ min: 1, max: 7 }),
    })
    let [taken, refused] = [0, 0]
    await fc.assert(
      fc.asyncProperty(fc.array(deed, { minLength: 3, maxLength: 10 }), async (deeds) => {
        const kept = new Map<string, Move>()
        const clear = await db.rows<{ id: string }>('select id from stock_moves')
        if (clear.length > 0)
          await applyEdits(
            db,
            act(),
            clear.map(({ id }): Edit => ({ do: 'remove', kind: 'stock_moves', id })),
          )
        for (const { do: what, which, on, move, count } of deeds) {
          const id = [...kept.keys()][which % Math.max(1, kept.size)]
          const after = new Map(kept)
          let edit: Edit
          if (what === 'add' || id === undefined) {
            const fresh = `m${++made}`
            const record = { id: fresh, lot: 'l', on, move, count, to: null, due: null, note: null, extra: {} }
            edit = { do: 'add', kind: 'stock_moves', record }
            after.set(fresh, record)
          } else if (what === 'change') {
            edit = { do: 'change', kind: 'stock_moves', id, to: { on, count } }
            after.set(id, { ...kept.get(id)!, on, count })
          } else {
            edit = { do: 'remove', kind: 'stock_moves', id }
            after.delete(id)
          }
          const lived = liveThrough(8, [...after.values()])
          const went = await applyEdits(db, act(), [edit]).then(
            () => null,
            (error: unknown) => faultOf(error),
          )
          expect(went === null).toBe(lived !== null)
          if (lived === null) {
            refused++
            expect(went).toMatchObject({ kind: 'stock_moves', field: 'count' })
            continue
          }
          taken++
          kept.clear()
          for (const [key, value] of after) kept.set(key, value)
          const { on: day, standing } = lived[which % lived.length]!
          const [told] = await db.rows<{ n: number }>(`select stock_standing('l', 8, $1::date)::integer as n`, [day])
          expect(told!.n).toBe(standing)
        }
      }),
      { seed: 20261125, numRuns: 30 },
    )
    expect(Math.min(taken, refused)).toBeGreaterThan(10)
  })

  it('says why plants that died can’t be lifted, in an edit and in an archive alike', async () => {
    const { db } = held!
    const lots = [{ id: 'l', kind: 'hazel', bed: 'b', row: null, year: null, count: 10, grade: null, price: 2.5 }]
    const lost = { id: 'm', lot: 'l', on: '2026-03-01', move: 'lost', count: 4, to: 'x', due: null, note: null }
    const lifted = { id: 'm2', lot: 'l', on: '2026-02-20', move: 'lifted', count: 7, to: null, due: null, note: null }
    await load(db, { ...GROUND, stock_lots: lots, stock_moves: [lost] })
    const add = (on: string): Edit[] => [
      { do: 'add', kind: 'stock_moves', record: { ...lifted, on, extra: {} } as AnyRecord },
    ]
    await applyEdits(db, act(), add('2026-02-20'))
    const fault = await applyEdits(db, act(), [
      { do: 'change', kind: 'stock_moves', id: 'm2', to: { on: '2026-03-02' } },
    ]).catch((error: unknown) => faultOf(error))
    expect(fault).toMatchObject({
      field: 'count',
      reason:
        'on 2026-03-02 lot hazel would have 1 more plants lifted than stood: 10 were raised and 4 had died in the ground',
    })
    const files = writeArchive(await readContent(db, new Map()))
    const text = new TextDecoder().decode(files.get('stock_moves.csv'))
    expect(text.split('\r\n')[0]).toBe('id,lot,on,move,count,to')
    expect(readArchive(files).faults).toEqual([])
    const late = new Map(files).set(
      'stock_moves.csv',
      new TextEncoder().encode(text.replace('2026-02-20', '2026-03-02')),
    )
    expect(readArchive(late).faults).toMatchObject([
      { file: 'stock_moves.csv', field: 'count', reason: expect.stringContaining('1 more plants of lot') },
    ])
  })
})

describe.skipIf(SERVER_ABSENT)('what is noted of beds', () => {
  const NOTED = {
    ...GROUND,
    plantings: [{ id: 'p', row: 'r', variety: 'red', from_m: 0, to_m: 10, set_out: '2026-05-01' }],
    picks: [
      { id: 'k', on: '2026-08-01', planting: 'p', quantity: 2, unit: 'kg', kg_per_unit: 1 },
      { id: 'k2', on: '2025-08-01', planting: 'p', quantity: 5, unit: 'kg', kg_per_unit: 1 },
      { id: 'k3', on: '2026-08-02', bed: 'b', quantity: 1.5, unit: 'kg', kg_per_unit: 1 },
      { id: 'k4', on: '2026-08-03', lon: 15.0005, lat: 46.00021, quantity: 3, unit: 'hatful' },
    ],
    dressings: [
      { id: 'd', on: '2026-04-01', bed: 'b', material: 'compost', kg_per_m2: 4, photo: 'd.jpg' },
      { id: 'd2', on: '2024-04-01', bed: 'b2', material: 'lime' },
    ],
    observations: [
      {
        id: 'o',
        on: '2026-07-01',
        kind: 'crack',
        severity: 3,
        geom: { type: 'Point', coordinates: [15.0004, 46.000225] },
      },
      { id: 'o2', on: '2026-07-01', kind: 'far', geom: { type: 'Point', coordinates: [15.0004, 46.00026] } },
    ],
    stock_lots: [{ id: 'l', kind: 'hazel', bed: 'b2', count: 10, price: 2.5 }],
    stock_moves: [
      { id: 'm', lot: 'l', on: '2026-03-01', move: 'lifted', count: 4 },
      { id: 'm2', lot: 'l', on: '2026-03-02', move: 'sold', count: 5 },
    ],
  }

  it('stands in the season’s book by bed, what was told of the bed beside its plantings', async () => {
    await load(held!.db, NOTED)
    const [one, two] = await seasonBook(held!.db, { from: '2026-01-01', to: '2026-12-31' })
    // X: two kilograms told of the planting in the season, one and a half of the bed, and a hatful whose weight is unknown.
    expect(one).toMatchObject({
      name: 'B1',
      field: 'Field',
      rows: [{ side: 'middle' }],
      plantings: [{ crop: 'Tomato', from: '2026-05-01', until: null, kg: 2, picks: 1, unweighed: 0 }],
      others: { kg: 1.5, picks: 2, unweighed: 1 },
      dressings: [{ material: 'compost', kg_per_m2: 4 }],
      seen: [{ kind: 'crack', severity: 3 }],
      lots: [],
    })
    expect(two).toMatchObject({
      dressings: [],
      seen: [],
      lots: [{ kind: 'hazel', counts: { left: 5, standing: 6, toLift: 1 } }],
    })
  })

  it('is told by cards: of the bed, the lot, the dressing and the observation', async () => {
    const { db } = held!
    await load(db, NOTED)
    const bed = await readCard(db, 'beds', 'b', '2026-12-01')
    expect(bed!.tables.find(({ title }) => title === 'What was seen')).toMatchObject({ opens: { ids: ['o'] } })
    expect(bed!.tables.find(({ title }) => title === 'What was put on')!.rows).toEqual([
      ['2026-04-01', 'compost', 4, null],
    ])
    const lines = async (kind: string, id: string) =>
      Object.fromEntries((await readCard(db, kind, id, '2026-12-01'))!.lines.map(({ label, value }) => [label, value]))
    expect(await lines('stock_lots', 'l')).toMatchObject({ left: 5, 'in the ground': 6, 'worth left': '12.50 EUR' })
    expect(await lines('observations', 'o')).toMatchObject({ severity: '3 of 5' })
    const dressing = await lines('dressings', 'd')
    const [area] = await db.rows<{ m2: number }>(`select st_area(plan) as m2 from beds where id = 'b'`)
    expect(dressing['in all']).toBeCloseTo(4 * area!.m2, 9)
  })

  it('is on the map by bed, and what a step touched is drawn again', async () => {
    const { db } = held!
    await load(db, NOTED)
    const told = async (on: string) =>
      (await readLayers(db, on)).beds.features.map(({ properties: { id, stock, dressed } }) => [id, stock, dressed])
    expect(await told('2026-12-01')).toEqual([
      ['b', 0, '2026-04-01'],
      ['b2', 6, null],
    ])
    expect(await told('2026-02-01')).toEqual([
      ['b', 0, null],
      ['b2', 10, null],
    ])
    const move = {
      id: 'm3',
      lot: 'l',
      on: '2026-03-03',
      move: 'lost',
      count: 6,
      to: null,
      due: null,
      note: null,
      extra: {},
    }
    const step = await applyEdits(db, act(), [
      { do: 'change', kind: 'stock_moves', id: 'm', to: { count: 3 } },
      { do: 'remove', kind: 'dressings', id: 'd' },
    ])
    expect([...(await touchedBy(db, step.changes)).scope.beds!].sort()).toEqual(['b', 'b2'])
    await expect(applyEdits(db, act(), [{ do: 'add', kind: 'stock_moves', record: move }])).rejects.toThrow()
    expect(await told('2026-12-01')).toEqual([
      ['b', 0, null],
      ['b2', 7, null],
    ])
  })
})
