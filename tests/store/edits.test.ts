import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { AnyRecord } from '../../geo/model/kind.ts'
import { kindNamed } from '../../geo/model/kinds.ts'
import type { Database } from '../../geo/store/database.ts'
import { removalOf } from '../../geo/store/dependents.ts'
import { applyEdits, type Edit } from '../../geo/store/edit.ts'
import { faultOf } from '../../geo/store/fault.ts'
import { recordsOver } from '../../geo/store/recordsOver.ts'
import { readRecords, readStored, TABLES } from '../../geo/store/row.ts'
import { readStacks, takeBack } from '../../geo/store/undo.ts'
import { emptyFarm } from './emptyFarm.ts'
import { load } from './farmOf.ts'
import { openTestDatabase, SERVER_ABSENT, useDatabase } from './harness.ts'

const ORIGIN = [15, 46] as const
let made = 0
const act = (label: string) => ({
  id: `step-${++made}`,
  clock: String(made).padStart(9, '0'),
  device: 'd',
  author: 'Ana',
  label,
})
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
const along = (x: number, y: number, u: number, v: number) => ({
  type: 'LineString' as const,
  coordinates: [
    [x, y],
    [u, v],
  ],
})
const FARM = {
  farm: [{ id: 'farm', name: 'Test', units: 'metric', season_start_month: 1 }],
  crops: [{ id: 'tomato', name: 'Tomato', family: 'Solanaceae', climbs: true, juglone: 'sensitive' }],
  varieties: [{ id: 'red', crop: 'tomato', name: 'Red' }],
  fields: [{ id: 'f', name: 'Field', geom: box(15, 46, 0.002, 0.002) }],
  beds: [
    { id: 'b', field: 'f', name: 'B1', geom: box(15.0002, 46.0002, 0.001, 0.00001) },
    { id: 'b2', field: 'f', name: 'B2', geom: box(15.0002, 46.0003, 0.001, 0.00001) },
  ],
  rows: [
    {
      id: 'r',
      bed: 'b',
      geom: {
        type: 'LineString',
        coordinates: [
          [15.0002, 46.000205],
          [15.0012, 46.000205],
        ],
      },
    },
  ],
  plantings: [{ id: 'p', row: 'r', variety: 'red', from_m: 0, to_m: 10, set_out: '2026-05-01' }],
  picks: [{ id: 'k', on: '2026-08-01', planting: 'p', quantity: 1.1, unit: 'kg', kg_per_unit: 1 }],
  shares: [{ id: 's', pick: 'k', to: 'Ana', part: 0.5 }],
  trees: [{ id: 't', species: 'Corylus avellana', geom: { type: 'Point', coordinates: [15.001, 46.001] } }],
  stock_lots: [{ id: 'l', kind: 'hazel', bed: 'b2', count: 10 }],
  stock_moves: [{ id: 'm', lot: 'l', on: '2026-11-01', move: 'sold', count: 6 }],
}

/** Every farm record, exactly: geometry bit for bit. */
async function whole(db: Database): Promise<string> {
  const tables = []
  for (const kind of TABLES) tables.push([kind.name, await readStored(db, kind)])
  return JSON.stringify(tables)
}

it.skipIf(SERVER_ABSENT)('undoes and redoes seeded runs of edits bit for bit', async () => {
  const db = await openTestDatabase(ORIGIN)
  await load(db, { ...FARM, rows: [{ ...FARM.rows[0]!, outside_accepted: true }] })
  const number = fc.double({ min: 0, max: 0.0009, noNaN: true })
  const edit = fc.oneof(
    fc.tuple(number, number).map(([dx, dy]): Edit[] => [
      {
        do: 'change',
        kind: 'beds',
        id: 'b',
        to: {
          geom: box(15.0001 + dx, 46.0001 + dy, 0.0009, 0.00001 + dy / 10),
          name: `B ${dx}`,
          outside_accepted: true,
        },
      },
    ]),
    fc.tuple(number, number).map(([dx, dy]): Edit[] => [
      {
        do: 'add',
        kind: 'trees',
        record: {
          id: 'tree',
          species: 'Juglans regia',
          height_m: dx * 1e4,
          extra: { dx },
          geom: { type: 'Point', coordinates: [15 + dx, 46 + dy] },
        } as AnyRecord,
      },
    ]),
    number.map((dx): Edit[] => [
      { do: 'change', kind: 'picks', id: 'k', to: { quantity: 1 + dx, note: `told ${dx}` } },
    ]),
    fc.constant<Edit[]>([
      { do: 'change', kind: 'plantings', id: 'p', to: { cleared: '2026-10-01', from_m: 0.1 + 0.2 } },
    ]),
  )
  await fc.assert(
    fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 6 }), async (runs) => {
      const states = [await whole(db)]
      for (const run of runs) {
        const edits = run.map((one) =>
          one.do === 'add' ? { ...one, record: { ...one.record, id: `tree-${++made}` } } : one,
        )
        await applyEdits(db, act('edit'), edits)
        states.push(await whole(db))
      }
      for (let i = runs.length - 1; i >= 0; i--) {
        expect(await takeBack(db, 'undo', act(''))).not.toBeNull()
        expect(await whole(db)).toBe(states[i])
      }
      for (let i = 1; i <= runs.length; i++) {
        expect(await takeBack(db, 'redo', act(''))).not.toBeNull()
        expect(await whole(db)).toBe(states[i])
      }
    }),
    { seed: 17, numRuns: 12 },
  )
  await db.close()
})

const held = useDatabaseOrNone()
function useDatabaseOrNone() {
  return SERVER_ABSENT ? null : useDatabase(ORIGIN)
}

it.skipIf(SERVER_ABSENT)(
  'changes many records as one step, one of them twice, and removes several grounds each once',
  async () => {
    const { db } = held!
    await emptyFarm(db)
    await load(db, FARM)
    const before = await whole(db)
    const moved = (y: number) => box(15.0002, y, 0.001, 0.00001)
    await applyEdits(db, act('move two'), [
      { do: 'change', kind: 'beds', id: 'b', to: { geom: moved(46.0004), name: 'B one', outside_accepted: true } },
      { do: 'change', kind: 'rows', id: 'r', to: { outside_accepted: true } },
      { do: 'change', kind: 'beds', id: 'b2', to: { geom: moved(46.0005) } },
      { do: 'change', kind: 'beds', id: 'b', to: { name: 'B uno' } },
    ])
    const [b, b2] = await readRecords(db, kindNamed('beds'), { by: 'id', values: ['b', 'b2'] })
    expect(b).toMatchObject({ name: 'B uno', geom: moved(46.0004) })
    expect(b2).toMatchObject({ name: 'B2', geom: moved(46.0005) })
    await takeBack(db, 'undo', act(''))
    expect(await whole(db)).toBe(before)
    const edits = await removalOf(db, [
      { kind: 'fields', id: 'f' },
      { kind: 'beds', id: 'b' },
      { kind: 'trees', id: 't' },
    ])
    const named = edits.map((edit) => JSON.stringify(edit))
    expect(new Set(named).size).toBe(named.length)
    await applyEdits(db, act('remove them'), edits)
    expect(await db.rows('select 1 from beds union all select 1 from trees')).toHaveLength(0)
    await takeBack(db, 'undo', act(''))
    expect(await whole(db)).toBe(before)
    await expect(
      applyEdits(db, act('nobody'), [{ do: 'change', kind: 'beds', id: 'nobody', to: { name: 'x' } }]),
    ).rejects.toThrow(/beds nobody is not there/)
  },
)

it.skipIf(SERVER_ABSENT)(
  'finds what lies over a ground by its place, on any day, and what refers to a record',
  async () => {
    const { db } = held!
    await emptyFarm(db)
    await load(db, {
      ...FARM,
      systems: [{ id: 'net', name: 'Net' }],
      supports: [
        { id: 'over', system: 'net', taken_down: '2020-01-01', geom: along(15.0003, 46.000205, 15.0008, 46.000205) },
        { id: 'across', system: 'net', geom: along(15.0005, 46.0001, 15.0005, 46.0004) },
        { id: 'beside', system: 'net', geom: along(15.0003, 46.0004, 15.0008, 46.0004) },
      ],
    })
    const over = (ids: string[]) => recordsOver(db, kindNamed('supports'), { kind: kindNamed('beds'), ids })
    expect((await over(['b'])).map(({ id }) => id)).toEqual(['over', 'across'])
    expect((await over(['b', 'b2'])).map(({ id }) => id)).toEqual(['over', 'across'])
    expect(await over([])).toEqual([])
    expect((await readRecords(db, kindNamed('rows'), { by: 'bed', values: ['b'] })).map(({ id }) => id)).toEqual(['r'])
  },
)

it.skipIf(SERVER_ABSENT)('removes a field with all that stands on it as one step, and brings it back', async () => {
  const { db } = held!
  await emptyFarm(db)
  await load(db, FARM)
  const before = await whole(db)
  const edits = await removalOf(db, [{ kind: 'fields', id: 'f' }])
  const order = edits.map((edit) => edit.kind)
  for (const [first, then] of [
    ['shares', 'picks'],
    ['picks', 'plantings'],
    ['plantings', 'rows'],
    ['rows', 'beds'],
    ['stock_moves', 'stock_lots'],
    ['stock_lots', 'beds'],
    ['beds', 'fields'],
  ])
    expect(order.lastIndexOf(first!)).toBeLessThan(order.indexOf(then!))
  const step = await applyEdits(db, act('remove Field'), edits)
  expect(step.changes).toHaveLength(9)
  expect(await db.rows('select 1 from beds')).toHaveLength(0)
  await takeBack(db, 'undo', act(''))
  expect(await whole(db)).toBe(before)
  expect((await readStacks(db)).redo.map((one) => one.label)).toEqual(['remove Field'])
})

it.skipIf(SERVER_ABSENT)('journals each change field by field, with who, where and when', async () => {
  const { db } = held!
  const step = await applyEdits(db, act('rename'), [
    { do: 'change', kind: 'beds', id: 'b', to: { name: 'B9', note: null } },
  ])
  const changes = await db.rows('select kind, record, before, after from changes where step = $1', [step.id])
  expect(changes).toEqual([{ kind: 'beds', record: 'b', before: { name: 'B1' }, after: { name: 'B9' } }])
  const [kept] = await db.rows('select device, author, label, clock from steps where id = $1', [step.id])
  expect(kept).toEqual({ device: 'd', author: 'Ana', label: 'rename', clock: step.clock })
})

it.skipIf(SERVER_ABSENT)('does all of a step or nothing', async () => {
  const { db } = held!
  const before = await whole(db)
  const edits: Edit[] = [
    { do: 'change', kind: 'beds', id: 'b', to: { name: 'half' } },
    {
      do: 'add',
      kind: 'rows',
      record: {
        id: 'r2',
        bed: 'no such bed',
        extra: {},
        geom: {
          type: 'LineString',
          coordinates: [
            [15, 46],
            [15.001, 46],
          ],
        },
      } as AnyRecord,
    },
  ]
  await expect(applyEdits(db, act('bad'), edits)).rejects.toMatchObject({ sqlState: '23503' })
  expect(await whole(db)).toBe(before)
})

it.skipIf(SERVER_ABSENT)('refuses to write a farm record outside a step', async () => {
  const { db } = held!
  await expect(db.rows(`update beds set name = 'x'`)).rejects.toMatchObject({ sqlState: 'SL002' })
  await expect(db.rows('delete from picks')).rejects.toMatchObject({ sqlState: 'SL002' })
})

const change = (kind: string, id: string, to: Record<string, unknown>): Edit => ({ do: 'change', kind, id, to })
const bow = {
  type: 'Polygon',
  coordinates: [
    [
      [15.0002, 46.0002],
      [15.0002, 46.0003],
      [15.0003, 46.0002],
      [15.0003, 46.0003],
      [15.0002, 46.0002],
    ],
  ],
}

it.skipIf(SERVER_ABSENT).each([
  ['a bed that leaves its field', change('beds', 'b', { geom: box(15.0002, 46.0002, 0.002, 0.00001) }), 'beds', 'geom'],
  ['a bed that crosses itself', change('beds', 'b', { geom: bow }), 'beds', 'geom'],
  [
    'a field that no longer holds its bed',
    change('fields', 'f', { geom: box(15.01, 46, 0.001, 0.001) }),
    'beds',
    'geom',
  ],
  [
    'a row that leaves its bed',
    change('rows', 'r', {
      geom: {
        type: 'LineString',
        coordinates: [
          [15, 46.1],
          [15.001, 46.1],
        ],
      },
    }),
    'rows',
    'geom',
  ],
  ['a stretch longer than its row', change('plantings', 'p', { to_m: 500 }), 'plantings', 'to_m'],
  ['a stretch that ends before it begins', change('plantings', 'p', { from_m: 20 }), 'plantings', 'to_m'],
  ['clearing before setting out', change('plantings', 'p', { cleared: '2025-01-01' }), 'plantings', 'cleared'],
  ['a quantity below zero', change('picks', 'k', { quantity: -1 }), 'picks', 'quantity'],
  ['a share above the whole', change('shares', 's', { part: 1.5 }), 'shares', 'part'],
  ['a pick with two places', change('picks', 'k', { bed: 'b' }), 'picks', 'planting'],
  [
    'shares above the whole of a pick',
    {
      do: 'add',
      kind: 'shares',
      record: { id: 's2', pick: 'k', to: 'Bor', part: 0.6, extra: {} } as AnyRecord,
    } as Edit,
    'shares',
    'part',
  ],
  [
    'more plants sold than a lot holds',
    {
      do: 'add',
      kind: 'stock_moves',
      record: { id: 'm2', lot: 'l', on: '2026-11-02', move: 'sold', count: 5, extra: {} } as AnyRecord,
    } as Edit,
    'stock_moves',
    'count',
  ],
  ['a lot made smaller than what left it', change('stock_lots', 'l', { count: 3 }), 'stock_moves', 'count'],
  ['a planting told of another bed than its row’s', change('plantings', 'p', { bed: 'b2' }), 'plantings', 'bed'],
  ['a tree 300 km off', change('trees', 't', { geom: { type: 'Point', coordinates: [19, 46] } }), 'trees', 'geom'],
  ['an empty name', change('fields', 'f', { name: '' }), 'fields', 'name'],
])('tells %s as a fault at its field', async (_, edit, kind, field) => {
  const { db } = held!
  const before = await whole(db)
  const error = await applyEdits(db, act('bad'), [edit]).then(
    () => null,
    (thrown: unknown) => thrown,
  )
  expect(faultOf(error)).toMatchObject({ kind, field })
  expect(await whole(db)).toBe(before)
})

it.skipIf(SERVER_ABSENT)('lets a person keep a bed that leaves its field', async () => {
  const { db } = held!
  const out = change('beds', 'b', { geom: box(15.0019, 46.0002, 0.001, 0.0001) })
  const fault = faultOf(await applyEdits(db, act('out'), [out]).catch((error: unknown) => error))
  expect(fault?.accept).toEqual({ outside_accepted: true })
  const rows = await removalOf(db, [{ kind: 'rows', id: 'r' }])
  await applyEdits(db, act('out'), [...rows, change('beds', 'b', { ...(out as { to: object }).to, ...fault!.accept })])
  expect(await db.rows('select outside_accepted from beds where id = $1', ['b'])).toEqual([{ outside_accepted: true }])
})
