import { describe, expect, it } from 'vitest'
import { type HeldPiece, heldByDay } from '../../../geo/supports/heldByDay.ts'
import { supportsDue } from '../../../geo/supports/supportDue.ts'
import type { WornRun } from '../../../geo/supports/supportsWear.ts'
import { wearBySystem } from '../../../geo/supports/wearBySystem.ts'

const piece = (planting: string, from: string, until: string | null, lengthM: number, heldM: number): HeldPiece => ({
  planting,
  crop: 'c',
  cropName: 'Tomato',
  afterDays: 20,
  bed: 'b',
  field: 'f',
  setOut: '2025-05-10',
  from,
  until,
  lengthM,
  heldM,
})

/** Invented: one planting held from June on, another never, cleared in August. */
const pieces = [
  piece('p', '2025-05-10', '2025-06-05', 10, 0),
  piece('p', '2025-06-05', null, 10, 10),
  piece('q', '2025-05-10', '2025-08-01', 4, 1),
]

describe('held through a season', () => {
  it('tells climbing and held metres on each day that either changes', () => {
    expect(heldByDay(pieces)).toEqual([
      { on: '2025-05-10', climbingM: 14, heldM: 1 },
      { on: '2025-06-05', climbingM: 14, heldM: 11 },
      { on: '2025-08-01', climbingM: 10, heldM: 10 },
    ])
    expect(heldByDay([])).toEqual([])
  })

  it('sets the day on which support was needed against the day on which it stood', () => {
    const [p, q] = supportsDue(pieces, '2025-07-01')
    expect(p).toMatchObject({ neededOn: '2025-05-30', heldFrom: '2025-06-05', lateDays: 6 })
    expect(q).toMatchObject({ neededOn: '2025-05-30', heldFrom: null, lateDays: 32 })
    expect(supportsDue(pieces, '2025-05-20')[1]!.lateDays).toBe(0)
    // Cleared: nothing is late after that.
    expect(supportsDue(pieces, '2025-12-01')[1]!.lateDays).toBe(63)
  })

  it('assumes days by the crop’s name where the farm has none, and says so by the day', () => {
    const [p] = supportsDue([{ ...pieces[0]!, afterDays: null, cropName: 'Climbing bean' }], '2025-07-01')
    expect(p!.neededOn).toBe('2025-05-24')
  })
})

describe('what held up better', () => {
  const run = (id: string, system: string, broken: number): WornRun => ({
    id,
    system,
    systemName: system,
    field: null,
    bed: null,
    lengthM: 10,
    permanent: false,
    putUp: '2025-05-01',
    takenDown: '2025-10-01',
    seasons: 1,
    breakages: Array.from({ length: broken }, (_, n) => ({
      observation: `${id}${n}`,
      on: '2025-07-01',
      kind: 'broken line',
      severity: null,
      note: null,
    })),
  })
  const recipe = (id: string) => ({ id, name: id, heightM: null, lines: null, tensionN: null, parts: [], work: [] })

  it('tells breakages a metre and season, and that few runs are too little to tell', () => {
    const runs = [
      run('1', 'a', 1),
      run('2', 'a', 0),
      run('3', 'a', 0),
      run('4', 'a', 2),
      run('5', 'a', 0),
      run('6', 'b', 1),
    ]
    const [a, b] = wearBySystem(runs, [recipe('a'), recipe('b'), recipe('none')], [])
    expect([a!.runs, a!.rate!.kgPerRowM, a!.tells]).toEqual([5, 3 / 50, true])
    expect([b!.runs, b!.rate!.kgPerRowM, b!.tells]).toEqual([1, 0.1, false])
  })
})
