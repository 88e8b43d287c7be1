import { describe, expect, it } from 'vitest'
import { nearEffects } from '../../../geo/yield/near/effects.ts'
import type { Factor } from '../../../geo/yield/near/factor.ts'
import { factorsOf } from '../../../geo/yield/near/factors.ts'
import { zoneQuestions } from '../../../geo/yield/near/questions.ts'
import type { Around } from '../../../geo/yield/near/readAround.ts'
import { nearWords } from '../../../geo/yield/near/words.ts'
import { plotsOf } from '../../../geo/yield/plots/plots.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'
import { seasonsFigures } from '../../../geo/yield/yieldReport.ts'
import { bedWithRows, planting, SETTINGS, season } from './farms.ts'
import { rectangle } from './shapes.ts'

const nothing: Around = { fieldEdges: [], fences: [], trees: [], supports: [], dressings: [], seen: [], history: [] }
const fact = {
  id: '',
  crop: 'tomato',
  cropName: 'Tomato',
  family: 'Solanaceae',
  climbs: true,
  variety: 'v',
  varietyName: 'V',
  plants: null,
  system: null,
  systemName: null,
}
const plot = (x: number, y: number, more: object = {}) => ({
  plot: { season: 2025, bed: 0, footprints: [], plantings: [], areaM2: 6, x, y, kg: 1, expectedKg: 1 },
  bed: 'b0',
  setOut: '2025-05-01',
  facts: fact,
  ...more,
})

describe('what lies near plots', () => {
  it('runs from 1 at a thing to 0 at its reach, and 1 within a canopy', () => {
    const around = {
      ...nothing,
      trees: [
        { at: [0, 0] as const, canopyM: 4, heightM: 9, juglone: true },
        { at: [0, 40] as const, canopyM: 1, heightM: 3, juglone: false },
      ],
      fences: [[[-50, 50] as const, [50, 50] as const]],
      seen: [{ at: [20, 0] as const, kind: 'animal damage', on: '2025-07-01' }],
    }
    const factors = factorsOf([plot(2, 0), plot(10, 0), plot(20, 47), plot(20, 3)], around, [])
    const values = Object.fromEntries(factors.map(({ id, values }) => [id, values]))
    // 10 m from the trunk is 6 m from the canopy's edge: 1 − 6/8.
    expect(values.walnut).toEqual([1, 0.25, 0, 0].map((v) => expect.closeTo(v, 12)))
    expect(values.canopy).toBeUndefined()
    expect(values.fence).toEqual([0, 0, 1 - 3 / 5, 0].map((v) => expect.closeTo(v, 12)))
    expect(values['seen: animal damage']).toEqual([0, 0, 0, 0.5].map((v) => expect.closeTo(v, 12)))
  })

  it('is the share of sun that crowns and other supports take, not what its own support takes', () => {
    // The sun stands in the south at 45° for one hour, and in the north for three.
    const ray = (north: number) => ({ east: 0, north, rise: 1 })
    const sun = [
      { ray: ray(-1), hours: 1 },
      { ray: ray(1), hours: 3 },
    ]
    const wall = (y: number) => ({ path: [[-5, y] as const, [5, y] as const], heightM: 2 })
    const around = { ...nothing, supports: [wall(-1), wall(5.3)] }
    const [shade] = factorsOf([plot(0, 0), plot(0, 5), plot(0, 20)], around, sun)
    // 1 m north of a wall of 2 m; along its own; away from both.
    expect([shade!.id, shade!.values]).toEqual(['shade', [0.25, 0, 0]])
  })

  it('asks of a family before only where something is known to have stood, and of systems only among what climbs', () => {
    const stood = (bed: string, family: string, cleared: string) => ({ bed, family, setOut: '2022-05-01', cleared })
    const around = {
      ...nothing,
      history: [
        stood('b0', 'Solanaceae', '2024-10-01'),
        stood('b1', 'Fabaceae', '2024-10-01'),
        stood('b2', 'Solanaceae', '2023-04-01'),
      ],
    }
    const net = { ...fact, system: 'net', systemName: 'Net' }
    const leek = { ...fact, family: 'Amaryllidaceae', climbs: false }
    const plots = [plot(0, 0), plot(0, 0, { bed: 'b1', facts: net }), plot(0, 0, { bed: 'b2', facts: leek })]
    const factors = factorsOf(plots, around, [])
    expect(factors.map(({ id, values, among }) => [id, values, among])).toEqual([
      ['support: Net', [0, 1, 0], [true, true, false]],
      ['family before', [1, 0, 0], [true, true, false]],
    ])
  })
})

/** Plots on a grid of 2 × 6 m, their index about 1, with `less` taken off by a factor's values. */
function invented(seed: number, values: (x: number, y: number) => number, less: number) {
  const random = seededRandom(seed)
  const xs: number[] = []
  const ys: number[] = []
  for (let i = 0; i < 8; i += 1)
    for (let j = 0; j < 16; j += 1) {
      xs.push(6 * i)
      ys.push(2 * j)
    }
  const noise = xs.map(() => (random() + random() + random() - 1.5) * 0.4)
  const of = xs.map((x, k) => values(x, ys[k]!))
  return { plots: { xs, ys, areasM2: xs.map(() => 6), index: of.map((v, k) => 1 - less * v + noise[k]!) }, of }
}

const factor = (id: string, values: readonly number[]): Factor => ({
  id,
  kind: 'seen',
  name: id,
  reachM: 6,
  values,
  among: null,
})

describe('what yield goes with', () => {
  const near = (x: number, y: number): number => Math.max(0, 1 - Math.hypot(x, y) / 15)

  it('is found by its size within the interval, and ranks first; chance does not', () => {
    const random = seededRandom(1)
    const { plots, of } = invented(3, near, 0.5)
    const chance = factor(
      'chance',
      of.map(() => (random() < 0.3 ? 1 : 0)),
    )
    const told = nearEffects(plots, [chance, factor('planted', of)])
    const [first, second] = told.effects
    expect(second!.p!).toBeGreaterThan(first!.p!)
    expect([first!.id, first!.tells, second!.id]).toEqual(['planted', 'goes with less', 'chance'])
    expect(first!.low!).toBeLessThan(-0.5)
    expect(first!.high!).toBeGreaterThan(-0.5)
    expect(nearWords(first!, (metres) => `${metres} m`)).toMatch(
      /^Yield goes with it: ground where planted was seen gave \d+ % of par less than ground 6 m and more away \(between −\d+ and −\d+/,
    )
  })

  it('names what lies so alike that it can’t be told apart', () => {
    const { plots, of } = invented(3, near, 0.5)
    const told = nearEffects(plots, [
      factor('planted', of),
      factor(
        'its twin',
        of.map((v) => v * 0.9 + 0.01),
      ),
    ])
    expect(told.effects.map(({ alike }) => alike)).toEqual(expect.arrayContaining([['its twin'], ['planted']]))
  })

  it('is not told of four plots, nor on a farm of nineteen', () => {
    const { plots } = invented(3, near, 0)
    const four = factor(
      'four',
      plots.xs.map((_, k) => (k < 4 ? 1 : 0)),
    )
    const [told] = nearEffects(plots, [four]).effects
    expect(told).toMatchObject({ with: 4, tells: 'too little to tell', effect: null })
    const few = Object.fromEntries(
      Object.entries(plots).map(([name, list]) => [name, list.slice(0, 19)]),
    ) as typeof plots
    const small = nearEffects(few, [
      factor(
        'half',
        few.xs.map((_, k) => k % 2),
      ),
    ])
    expect(small.tooLittle).toMatch(/^There are 19 plots/)
    expect(small.effects[0]!.tells).toBe('too little to tell')
  })

  it('calls a link sure on few farms where nothing is planted and neighbours are alike', () => {
    // Errors of 30 farms share a wave over the field: a model of independent plots would find links all over.
    let sure = 0
    for (let seed = 1; seed <= 30; seed += 1) {
      const random = seededRandom(100 + seed)
      const [a, b, c, d] = [random(), random(), random() * 6, random() * 6]
      const wave = (x: number, y: number): number =>
        0.25 * Math.sin((0.05 + 0.1 * a!) * x + c!) * Math.cos((0.05 + 0.1 * b!) * y + d!)
      const { plots } = invented(seed, wave, 1)
      const at = [42 * random(), 30 * random()]
      const values = plots.xs.map((x, k) => Math.max(0, 1 - Math.hypot(x - at[0]!, plots.ys[k]! - at[1]!) / 12))
      if (nearEffects(plots, [factor('nothing', values)]).effects[0]!.tells !== 'no link that is sure') sure += 1
    }
    expect(sure).toBeLessThanOrEqual(4)
  })
})

describe('plots and questions', () => {
  const laidOut = Array.from({ length: 3 }, (_, k) => bedWithRows(`b${k}`, rectangle(0, 1.8 * k, 20, 1.2), 1))
  const figures = seasonsFigures(
    [
      season({
        beds: laidOut.map(({ bed }) => bed),
        rows: laidOut.flatMap(({ rows }) => rows),
        plantings: [0, 1, 2].flatMap((k) =>
          [0, 10].map((from) =>
            planting(`p${k}-${from}`, `b${k}`, 'tomato', { row: `b${k}-0`, fromM: from, toM: from + 10 }),
          ),
        ),
        picks: {
          plantings: [
            { planting: 'p0-0', kg: 10 },
            { planting: 'p1-0', kg: 5 },
          ],
          beds: [{ bed: 'b1', kg: 2 }],
        },
      }),
    ],
    SETTINGS,
    null,
  )

  it('are plantings, or a whole bed where some picks were told only by bed', () => {
    expect(plotsOf(figures).map(({ bed, plantings, kg, areaM2, x }) => [bed, plantings.length, kg, areaM2, x])).toEqual(
      [
        [0, 1, 10, expect.closeTo(12, 9), expect.closeTo(5, 9)],
        [0, 1, 0, expect.closeTo(12, 9), expect.closeTo(15, 9)],
        [1, 2, 7, expect.closeTo(24, 9), expect.closeTo(10, 9)],
        [2, 1, 0, expect.closeTo(12, 9), expect.closeTo(5, 9)],
        [2, 1, 0, expect.closeTo(12, 9), expect.closeTo(15, 9)],
      ],
    )
  })

  it('are asked of a zone by what lies near its plots, in it, with their reason', () => {
    const plots = plotsOf(figures)
    const zone = {
      areaM2: 12,
      kg: 0,
      expectedKg: 5,
      index: 0,
      shortfallKg: 5,
      shortfallRowM: 9,
      beds: [2],
      stretches: [10, 11],
    }
    const walnut: Factor = {
      id: 'walnut',
      kind: 'walnut',
      name: null,
      reachM: 12,
      values: [0, 0, 0, 0.9, 0.1],
      among: null,
    }
    const compost: Factor = {
      id: 'dressing: compost',
      kind: 'dressing',
      name: 'compost',
      reachM: null,
      values: [1, 1, 1, 0, 0],
      among: null,
    }
    const questions = zoneQuestions([zone], figures.stretches, plots, [walnut, compost], [])
    expect(questions.map(({ id }) => id)).toEqual([
      'zone 1: walnut roots',
      'zone 1: compost missed',
      'zone 1: wet or packed ground',
      'zone 1: picks not written down',
    ])
    expect(figures.stretches[10]!.bed).toBe(2)
    expect(questions[0]!.at[1]).toBeCloseTo(3.6 + 0.6, 6)
    for (const { reason, notedOn } of questions) {
      expect(reason).not.toMatch(/caus|because/i)
      expect(notedOn).toBeNull()
    }
  })

  const zone = {
    areaM2: 12,
    kg: 0,
    expectedKg: 5,
    index: 0,
    shortfallKg: 5,
    shortfallRowM: 9,
    beds: [2],
    stretches: [10, 11],
  }
  const everywhere = (kind: Factor['kind'], name: string | null): Factor => {
    return { id: `${kind} ${name}`, kind, name, reachM: 5, values: [0, 0, 0, 1, 1], among: null }
  }

  it('are asked so that yes means what is noted', () => {
    const nowhere = { reachM: null, values: [1, 1, 1, 0, 0] }
    const factors = [
      ...(['walnut', 'canopy', 'shade', 'fence', 'family before'] as const).map((kind) => everywhere(kind, null)),
      everywhere('seen', 'blight'),
      { ...everywhere('dressing', 'compost'), ...nowhere },
      { ...everywhere('support', 'Net'), ...nowhere },
    ]
    const asked = zoneQuestions([zone], figures.stretches, plotsOf(figures), factors, [])
    expect(asked.map(({ kind, question }) => [kind, question.split(/(?<=\?)/)[0]])).toEqual([
      ['walnut roots', 'Are there walnut roots in this ground?'],
      ['tree roots', 'Are there tree roots in this ground?'],
      ['shade', 'Does this ground lie in shadow for hours on a bright day?'],
      ['animal damage', 'Are there tracks, droppings or bitten plants here?'],
      ['root or stem disease', 'Are roots or stem of a weak plant brown, swollen or eaten?'],
      ['blight', 'Is there blight here now?'],
      ['compost missed', 'Did this ground really get no compost?'],
      ['support down', 'Did the plants here lie on the ground, or was their support down?'],
      ['wet or packed ground', 'Does water stand here after rain, or is the ground harder than beside it?'],
      [
        'picks not written down',
        'Was anything picked here that was not written down, or was written down to another place?',
      ],
    ])
  })

  it('are asked once where several things lie near that are noted alike, and tell what was noted in the zone', () => {
    const factors = [everywhere('field edge', null), everywhere('fence', null)]
    const [first, second] = [10, 11].map((s) => figures.stretches[s]!)
    const noted = [
      { kind: 'animal damage', on: '2025-06-01', at: [first!.x, first!.y + 3.9] as const },
      { kind: 'animal damage', on: '2025-05-01', at: [second!.x, second!.y] as const },
      { kind: 'wet or packed ground', on: '2025-06-01', at: [first!.x, first!.y - 4.1] as const },
    ]
    const asked = zoneQuestions([zone], figures.stretches, plotsOf(figures), factors, noted)
    expect(asked.map(({ kind, notedOn }) => [kind, notedOn])).toEqual([
      ['animal damage', '2025-06-01'],
      ['wet or packed ground', null],
      ['picks not written down', null],
    ])
    expect(asked[0]!.reason).toBe('The field’s edge lies within 5 m. A fence lies within 5 m.')
  })
})
