import { beforeAll, describe, expect, it } from 'vitest'
import { box, collection, farmWith, feature, line } from '../unit/exchange/archiveOf.ts'
import { jsonOf, selion, useFolder, writeFiles } from './cliRun.ts'

// Keys by the project's own contract of the command line, version 1.
const RUN = [
  'id',
  'system',
  'field',
  'bed',
  'length_m',
  'parts',
  'cost_now',
  'cost_per_season',
  'minutes_per_season',
  'load',
]
/** Told beside them. */
const MORE_OF_RUN = ['posts_there', 'load_from', 'fruit_n_per_m', 'vines_n_per_m', 'checks', 'remedies']
const LOAD = ['span_m', 'load_n_per_m', 'sag_m', 'tension_n', 'breaking_n', 'safety']

interface Told {
  readonly runs: readonly {
    readonly id: string
    readonly system: string
    readonly field: string | null
    readonly bed: string | null
    readonly length_m: number
    readonly parts: readonly {
      readonly part: string
      readonly count: number | null
      readonly unit: string
      readonly cost: number | null
    }[]
    readonly cost_now: number
    readonly cost_per_season: number
    readonly minutes_per_season: number
    readonly load: Readonly<Record<string, number>> | null
  }[]
  readonly rolls: readonly {
    readonly part: string
    readonly rolls: number
    readonly roll_m: number
    readonly waste_m: number
    readonly cuts: readonly (readonly number[])[]
  }[]
  readonly total: { readonly cost_now: number; readonly cost_per_season: number; readonly minutes_per_season: number }
  readonly shopping: readonly Line[]
  readonly anew: readonly Line[]
  readonly season: {
    readonly days: readonly { readonly on: string; readonly climbing_m: number; readonly held_m: number }[]
    readonly fields: readonly { readonly field: string }[]
    readonly crops: readonly { readonly crop: string }[]
    readonly due: readonly Readonly<Record<string, unknown>>[]
  }
  readonly years: {
    readonly run: string
    readonly systems: readonly {
      readonly system: string
      readonly each_season: { readonly by_season: readonly number[] }
      readonly left_up: { readonly by_season: readonly number[] }
    }[]
    readonly compared: { readonly permanent: string; readonly sensitivity: readonly unknown[] }
  }
  readonly wear: {
    readonly runs: readonly { readonly id: string; readonly seasons: number }[]
    readonly minutes: readonly { readonly work: string; readonly times: number; readonly minutes_per_m: number }[]
    readonly seasons: readonly number[]
    readonly comparisons: readonly { readonly by: string; readonly verdict: string }[]
    readonly rule: string
  }
}

interface Line {
  readonly part: string
  readonly needed: number
  readonly to_buy: number
}

const folder = useFolder()
const demo = () => folder('demo')
const byHand = () => folder('by-hand')

/** An invented farm: one bed of 1.2 m by 30 m with a row of beans on a net, as in the year before, and another row with nothing. */
const FARM = {
  'fields.geojson': collection(feature('f', box(0, 0, 20, 40), { name: 'Field' })),
  'beds.geojson': collection(feature('b', box(2, 2, 1.2, 30), { field: 'f', name: 'Bed' })),
  'rows.geojson': collection(feature('r', line([2.3, 2], [2.3, 32]), { bed: 'b', name: 'west' })),
  'supports.geojson': collection(
    feature('s', line([2.4, 2], [2.4, 26]), {
      system: 'net',
      put_up: '2025-05-01',
      taken_down: null,
      permanent: false,
    }),
    feature('gone', line([2.4, 2], [2.4, 26]), { system: 'net', put_up: '2024-05-01', taken_down: '2024-11-01' }),
  ),
  'systems.csv': 'id,name,height_m\nnet,Net on posts,1.8\n',
  'system_parts.csv':
    'system,part,rule,unit_cost,lasts_seasons,roll_m\nnet,post,1 per 1.5 m + 1,5,10,\nnet,"wire, 17 gauge",1 m per m,0.1,5,100\nnet,clip,1 per plant,0.02,1,\n',
  'system_work.csv':
    'system,work,minutes_per_m,when\nnet,put up,5,putting up\nnet,tend,1,each season\nnet,pull,4,taking down\n',
  'crops.csv': 'id,name,family,climbs\nbean,Bean,Fabaceae,yes\n',
  'varieties.csv': 'id,crop,name\nv,bean,Long pole\n',
  'plantings.csv':
    'id,row,variety,from_m,to_m,set_out,cleared,plants\nbefore,r,v,0,30,2024-05-20,2024-10-10,\np,r,v,0,30,2025-05-20,2025-10-10,100\n',
  'containers.csv': null,
  'picks.csv': 'id,on,planting,quantity,unit\nk1,2024-08-01,before,45,kg\nk2,2025-06-28,p,3,kg\n',
  'shares.csv': null,
  'trees.geojson': null,
  'structures.geojson': null,
  'observations.geojson': null,
  'dressings.csv': null,
  'stock_lots.csv': null,
  'stock_moves.csv': null,
  'stores.csv': 'id,part,count,metres\nst,post,10,\n',
  'support_work.csv': 'id,support,on,work,minutes\nt1,s,2025-05-01,put up,60\nt2,gone,2024-05-01,put up,84\n',
  'photos.json': null,
}

beforeAll(async () => {
  expect(await selion('demo', demo())).toMatchObject({ code: 0, error: '' })
  await writeFiles(byHand(), farmWith(FARM))
})

describe('selion supports', () => {
  // 24 m of run: 17 posts at 5, 24 m of wire at 0.1, and clips for what the run holds of 100 plants on 30 m: up to 0.6 m
  // beyond its end but for the tenth of a metre that the row lies beside it, 24.592 m of them, 82 plants.
  it('bills and loads a run as laid out by hand', async () => {
    const told = await jsonOf<Told>(selion('supports', byHand(), '--on', '2025-07-01', '--labour', '12', '--json'))
    expect(Object.keys(told)).toEqual(['runs', 'rolls', 'total', 'shopping', 'anew', 'season', 'years', 'wear'])
    const [run, ...others] = told.runs
    expect(others).toEqual([])
    expect(Object.keys(run!)).toEqual([...RUN, ...MORE_OF_RUN])
    expect(run).toMatchObject({ id: 's', system: 'net', field: 'f', bed: 'b' })
    const length = run!.length_m
    expect(length).toBeCloseTo(24, 1)
    const near = (value: number, to: number) => expect(Math.abs(value / to - 1)).toBeLessThan(1e-9)
    expect(run!.parts.map(({ part, unit }) => `${part} ${unit}`)).toEqual([
      'post piece',
      'wire, 17 gauge m',
      'clip piece',
    ])
    expect(run!.parts.map(({ count }) => count)).toEqual([17, length, 82])
    near(run!.cost_now, 85 + length * 0.1 + 82 * 0.02)
    near(run!.minutes_per_season, length * 10)
    near(run!.cost_per_season, 8.5 + length * 0.02 + 82 * 0.02 + (length * 10 * 12) / 60)
    expect(told.total).toEqual({
      cost_now: run!.cost_now,
      cost_per_season: run!.cost_per_season,
      minutes_per_season: run!.minutes_per_season,
    })
    expect(told.rolls).toEqual([
      { part: 'wire, 17 gauge', rolls: 1, roll_m: 100, waste_m: 100 - length, cuts: [[length]] },
    ])
    expect(Object.keys(run!.load!)).toEqual(LOAD)
    near(run!.load!.span_m!, length / 16)
    // 45 kg on 30 m of row the year before is 1.5 kg/m, of it 24.592 m on the run, with 2.5 times as much of vines; the
    // wire weighs 11.6 g/m (7850 kg/m³). What was picked of the beans that stand tells nothing yet.
    const fruit = ((1.5 * 24.592) / 24) * 9.80665
    expect(run).toMatchObject({
      fruit_n_per_m: expect.closeTo(fruit, 1),
      vines_n_per_m: expect.closeTo(2.5 * fruit, 1),
    })
    expect(run!.load!.load_n_per_m).toBeCloseTo(3.5 * fruit + 0.0116 * 9.80665, 1)
    near(run!.load!.safety!, run!.load!.breaking_n! / run!.load!.tension_n!)
    expect(run).toMatchObject({ load_from: 'variety', posts_there: {} })

    // It stands, put up this season: nothing is to be bought. To build it anew, 17 posts less the 10 in store.
    expect(told.shopping).toEqual([])
    expect(told.anew[0]).toMatchObject({ part: 'post', needed: 17, in_store: 10, to_buy: 7, cost: 35 })
    // Set out on 20 May, a bean assumed to need its support after 14 days: 3 June; the run of 24.592 m never held all of it.
    expect(told.season.days.map(({ on }) => on)).toEqual(['2025-05-20', '2025-10-10'])
    expect(told.season.days[0]!.climbing_m).toBeCloseTo(30, 1)
    expect(told.season.days[0]!.held_m).toBeCloseTo(24.592, 2)
    expect([told.season.fields[0]!.field, told.season.crops[0]!.crop]).toEqual(['f', 'bean'])
    expect(told.season.due).toMatchObject([
      { planting: 'p', needed_on: '2025-06-03', needed_assumed: true, held_from: null, late_days: 28 },
    ])
    // All parts in the first season with labour 10 min a metre; clips and labour in the second.
    const [first, second] = told.years.systems[0]!.each_season.by_season
    near(first!, 85 + length * 0.1 + 82 * 0.02 + (length * 10 * 12) / 60)
    near(second!, 82 * 0.02 + (length * 10 * 12) / 60)
    expect(told.years.run).toBe('s')
    expect(told.years.compared.sensitivity).toHaveLength(7)
    expect(told.wear.runs.map(({ id, seasons }) => [id, seasons])).toEqual([
      ['s', 1],
      ['gone', 1],
    ])
    // 144 minutes on two runs of 24 m.
    expect(told.wear.minutes).toMatchObject([{ work: 'putting up', times: 2 }])
    near(told.wear.minutes[0]!.minutes_per_m, 144 / (2 * length))
    // One system held all that was picked.
    expect(told.wear).toMatchObject({
      seasons: [2024, 2025],
      comparisons: [],
      rule: expect.stringContaining('5 or more'),
    })
  })

  it('takes the minutes that were timed where that is asked for, and refuses what it does not know', async () => {
    const asked = (...more: readonly string[]) => selion('supports', byHand(), '--on', '2025-07-01', '--json', ...more)
    const told = await jsonOf<Told>(asked('--minutes', 'records'))
    // 3 min a metre timed for putting up, 1 and 4 as the system tells.
    expect(told.total.minutes_per_season).toBeCloseTo(144 / 2 + told.runs[0]!.length_m * 5, 9)
    for (const wrong of [
      ['--minutes', 'guess'],
      ['--years', '2.5'],
      ['--run', 'none'],
      ['--instead', 'none'],
    ])
      expect(await asked(...wrong)).toMatchObject({ code: 2, out: '' })
  })

  // Before it is put up all its parts are wanted; a season later only its clips, as many as plants stand along it: none known.
  it('lists to buy what is put up later, and what stands needs anew in a later season', async () => {
    const on = (day: string) => jsonOf<Told>(selion('supports', byHand(), '--on', day, '--json'))
    const before = await on('2025-04-01')
    expect([before.runs, before.anew]).toEqual([[], []])
    expect(before.shopping.map(({ part, to_buy }) => [part, to_buy])).toEqual([
      ['post', 7],
      ['wire, 17 gauge', expect.closeTo(24, 1)],
      ['clip', 82],
    ])
    const later = await on('2026-07-01')
    expect(later.shopping).toMatchObject([{ part: 'clip', needed: null, to_buy: null }])
    expect(later.anew.map(({ part }) => part)).toEqual(['post', 'wire, 17 gauge', 'clip'])
  })

  it('takes the published design load of 7 lb/ft where nothing was picked', async () => {
    await writeFiles(folder('unpicked'), farmWith({ ...FARM, 'picks.csv': null }))
    const told = await jsonOf<Told>(selion('supports', folder('unpicked'), '--on', '2025-07-01', '--json'))
    // 7 lb/ft (Sumner, Univ. of Georgia, C) is 102.2 N/m.
    expect(told.runs[0]!.load!.load_n_per_m).toBeCloseTo(102.16 + 0.11, 1)
    expect(told.runs[0]!.cost_per_season).toBeLessThan(12)
  })

  // In a first season, 3 kg picked by the end of June; by hand, 45 kg picked of 30 m once it is cleared.
  it('takes the published design load while a first planting is still picked, and its own yield once it is cleared', async () => {
    const first = {
      ...FARM,
      'plantings.csv': 'id,row,variety,from_m,to_m,set_out,cleared,plants\np,r,v,0,30,2025-05-20,2025-10-10,\n',
      'picks.csv': 'id,on,planting,quantity,unit\nk2,2025-06-28,p,3,kg\nk3,2025-08-01,p,42,kg\n',
    }
    await writeFiles(folder('first'), farmWith(first))
    const asked = (...more: readonly string[]) =>
      jsonOf<Told>(selion('supports', folder('first'), ...more, '--vines', '1', '--json'))
    const begun = (await asked('--on', '2025-07-01')).runs[0]!
    expect(begun).toMatchObject({ load_from: 'design load', fruit_n_per_m: null, vines_n_per_m: null })
    expect(begun.load!.load_n_per_m).toBeCloseTo(102.16 + 0.11, 1)
    const cleared = (await asked('--on', '2025-10-10')).runs[0]!
    expect(cleared).toMatchObject({ load_from: 'variety' })
    expect(cleared.load!.load_n_per_m).toBeCloseTo(((2 * 1.5 * 24.592) / 24 + 0.0116) * 9.80665, 1)
  })

  it('tells the demo farm’s runs, their sums and their rolls', async () => {
    const told = await jsonOf<Told>(selion('supports', demo(), '--on', '2026-07-15', '--json'))
    expect(told.runs.length).toBeGreaterThan(20)
    expect(new Set(told.runs.map(({ system }) => system)).size).toBeGreaterThanOrEqual(8)
    for (const run of told.runs) expect(run.parts.every(({ count }) => count !== null && count >= 0)).toBe(true)
    const sum = (of: readonly number[]) => of.reduce((total, one) => total + one, 0)
    expect(told.total.cost_now).toBeCloseTo(sum(told.runs.map((run) => run.cost_now)), 6)
    expect(told.total.minutes_per_season).toBeCloseTo(sum(told.runs.map((run) => run.minutes_per_season)), 6)
    for (const { part, rolls, roll_m, waste_m, cuts } of told.rolls) {
      expect(cuts).toHaveLength(rolls)
      for (const roll of cuts) expect(sum(roll)).toBeLessThanOrEqual(roll_m + 1e-6)
      const used = sum(
        told.runs.flatMap((run) => run.parts.filter((one) => one.part === part).map(({ count }) => count!)),
      )
      expect(rolls * roll_m - waste_m).toBeCloseTo(used, 6)
    }
    expect(told.runs.filter(({ load }) => load !== null).length).toBeGreaterThan(5)
    expect(told.wear.comparisons.length).toBeGreaterThan(5)
    expect(told.wear.comparisons.every(({ by }) => by === 'system')).toBe(true)
  })

  it('prints a table with its cautions, and refuses what is no wage', async () => {
    const { code, out } = await selion('supports', demo(), '--on', '2026-07-15')
    expect(code).toBe(0)
    expect(out).toMatch(/gives first/)
    for (const title of [
      /To buy, for runs put up after 2026-07-15/,
      /To build all that stands anew/,
      /Held through the season/,
      /Over 10 seasons/,
      /How systems held up/,
    ])
      expect(out).toMatch(title)
    expect(out).toMatch(/never a design/)
    expect(out).toMatch(/buried-services/)
    expect(out).toMatch(/recoils/)
    expect(await selion('supports', demo(), '--labour', 'nine')).toMatchObject({ code: 2, out: '' })
  })
})
