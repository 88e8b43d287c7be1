import { describe, expect, it } from 'vitest'
import { standsOf } from '../../../geo/growing/stand.ts'
import { manureIntervals } from '../../../geo/growing/warnings/manureInterval.ts'
import { warningWords } from '../../../src/sheets/growing/warningWords.ts'
import { showDay } from '../../../src/sheets/show/dates.ts'
import { randomGround } from './randomGround.ts'

// By hand: beans that stand from 20 May to 10 October, touch the soil or do not, and are first picked 70 days after, on
// 29 July; raw manure on 1 August, so nothing before 29 November (120 days) or 30 October (90 days), both after clearing.
const { ground } = randomGround(1)
const bed = [...ground.beds.keys()][0]!
const dressing = { ...ground.manure[0]!, id: 'd', bed, on: '2026-08-01' }
const beans = { ...ground.crops.get('potato')!, first_pick_days: 70 as number | null, touches_soil: true }
const planting = {
  ...{ id: 'p', row: null, bed, variety: 'v potato', from_m: null, to_m: null, set_out: '2026-05-20' },
  ...{ cleared: '2026-10-10' as string | null, plants: null, spacing_m: null, purpose: null, note: null, extra: {} },
}

interface Told {
  readonly picks?: readonly string[]
  readonly crop?: Partial<typeof beans>
  readonly cleared?: string | null
  readonly on?: string
}

function warned({ picks = [], crop = {}, cleared = planting.cleared, on = dressing.on }: Told) {
  const [stand] = standsOf({
    ...ground,
    crops: new Map([['potato', { ...beans, ...crop }]]),
    plantings: [{ ...planting, cleared }],
  })
  return manureIntervals(stand!, {
    manure: [{ ...dressing, on }],
    picked: new Map(picks.length > 0 ? [['p', picks]] : []),
  })
}
const harvestOf = (told: Told) => warned(told).map(({ harvest }) => harvest && `${harvest.how} ${harvest.on}`)

describe('raw manure put on while a planting stands', () => {
  it('is warned of before a pick comes too soon, not only after', () => {
    expect(harvestOf({ picks: ['2026-07-25', '2026-07-30'] })).toEqual(['going on 2026-08-01'])
    expect(harvestOf({})).toEqual(['going on 2026-08-01'])
    expect(harvestOf({ picks: ['2026-07-25', '2026-07-30', '2026-08-03'] })).toEqual(['picked 2026-08-03'])
    expect(harvestOf({ on: '2026-07-01' })).toEqual(['expected 2026-07-29'])
  })

  it('is warned of where picks alone tell that it bears', () => {
    expect(harvestOf({ picks: ['2026-07-25'], crop: { first_pick_days: null } })).toEqual(['going on 2026-08-01'])
    expect(harvestOf({ picks: ['2026-07-25'], crop: { first_pick_days: 130 } })).toEqual(['going on 2026-08-01'])
    expect(harvestOf({ crop: { first_pick_days: null } })).toEqual([null])
  })

  it('is no warning where the next pick waited, or could not come sooner', () => {
    const stays = { cleared: null, crop: { touches_soil: false } }
    expect(harvestOf({ ...stays, picks: ['2026-07-25', '2026-10-29'] })).toEqual(['picked 2026-10-29'])
    expect(harvestOf({ ...stays, picks: ['2026-07-25', '2026-10-30'] })).toEqual([])
    expect(harvestOf({ ...stays, crop: { touches_soil: false, first_pick_days: 162 } })).toEqual([
      'expected 2026-10-29',
    ])
    expect(harvestOf({ ...stays, crop: { touches_soil: false, first_pick_days: 163 } })).toEqual([])
    expect(harvestOf({ cleared: '2026-08-01' })).toEqual([])
    expect(harvestOf({ cleared: '2026-08-02' })).toEqual(['going on 2026-08-01'])
  })

  it('is told in words that are true of each', () => {
    const why = (told: Told) => warningWords(warned(told)[0]!, 'metric').why
    const [dressedOn, first, notBefore] = ['2026-08-01', '2026-07-29', '2026-11-29'].map(showDay)
    expect(why({})).toBe(
      `manure on ${dressedOn}: not to be harvested before ${notBefore}, 120 days (it touches soil). It stands on ${dressedOn} and is still to be picked.`,
    )
    expect(why({ on: '2026-07-01' })).toContain(`Its first pick may be expected on ${first}.`)
    expect(why({ picks: ['2026-08-01'] })).toContain(`It was picked on ${dressedOn}.`)
  })
})
