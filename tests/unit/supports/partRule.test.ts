import { describe, expect, it } from 'vitest'
import { countPart, type RunSize } from '../../../geo/supports/countPart.ts'
import { RULE_FORMS, readPartRule } from '../../../geo/supports/partRule.ts'
import { postPlaces } from '../../../geo/supports/postPlaces.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'

/** 24 m of run, 1.8 m high, three lines, 30 plants, 17 posts, 90 ties. */
const RUN: RunSize = { lengthM: 24, heightM: 1.8, lines: 3, plants: 30, posts: 17, ties: 90 }
const counted = (text: string, size = RUN) => countPart(readPartRule(text)!, size)

describe('a part’s rule', () => {
  it.each(RULE_FORMS)('%s can be read', (form) => expect(readPartRule(form)).not.toBeNull())

  // By hand, each from its words.
  it.each([
    ['2 per run', 2],
    ['1 per end', 2],
    ['1 per 1.5 m + 1', 17],
    ['1 per 5 m - 1', 4],
    ['1 per 5 m', 5],
    ['2 per 2 m + 2', 26],
    ['1 per 3 plants + 1', 11],
    ['3 per plant', 90],
    ['4 per post', 68],
    ['1 per line', 3],
    ['1.05 m per m of line', 75.6],
    ['1.1 m per m', 26.4],
    ['1 m² per m2', 43.2],
    ['0.2 m per tie', 18],
    ['2,5 per m', 60],
    ['8 per 1 m', 192],
  ])('%s is %d', (rule, count) => expect(counted(rule)).toBeCloseTo(count, 9))

  it.each(['one per run', '2 a run', '2 per', 'per run', '1 per 0 m', '', '2 per runway', '-1 per m'])(
    '%j is not read',
    (text) => expect(readPartRule(text)).toBeNull(),
  )

  it('counts nothing by what is not known', () => {
    expect(counted('3 per plant', { ...RUN, plants: null })).toBeNull()
    expect(counted('1 m2 per m2', { ...RUN, heightM: null })).toBeNull()
  })

  it('stretches a spacing by a fiftieth before it counts one more', () => {
    expect(counted('1 per 1.5 m + 1', { ...RUN, lengthM: 24.02 })).toBe(17)
    expect(counted('1 per 1.5 m + 1', { ...RUN, lengthM: 24.1 })).toBe(18)
  })
})

describe('posts', () => {
  const places = (text: string, size = RUN) => postPlaces(readPartRule(text)!, size)!

  it('stand from end to end, between the ends, at the ends, and one in its stretch', () => {
    expect(places('1 per 6 m + 1')).toEqual([0, 6, 12, 18, 24].map((atM) => ({ atM, count: 1 })))
    expect(places('1 per 6 m - 1')).toEqual([6, 12, 18].map((atM) => ({ atM, count: 1 })))
    expect(places('2 per 12 m + 2')).toEqual([0, 12, 24].map((atM) => ({ atM, count: 2 })))
    expect(places('2 per end')).toEqual([0, 24].map((atM) => ({ atM, count: 2 })))
    expect(places('1 per 8 m')).toEqual([4, 12, 20].map((atM) => ({ atM, count: 1 })))
  })

  it('are as many as the bill counts, whatever the rule and the run', () => {
    const random = seededRandom(3)
    const rules = [
      '1 per run',
      '2 per run',
      '3 per run',
      '1 per end',
      '1 per plant',
      '2 per 3 plants + 2',
      '1 per 3 plants + 1',
    ]
    for (let n = 0; n < 500; n++) {
      const every = (0.5 + random() * 5).toFixed(2)
      const amount = 1 + Math.floor(random() * 3)
      const plus = ['', ` + ${amount}`, ` - ${amount}`, ' + 1', ' + 2'][Math.floor(random() * 5)]
      const rule = n % 3 === 0 ? rules[Math.floor(random() * rules.length)]! : `${amount} per ${every} m${plus}`
      const size = { ...RUN, lengthM: 0.5 + random() * 60, plants: Math.floor(random() * 80) }
      const there = places(rule, size)
      expect(
        there.reduce((sum, { count }) => sum + count, 0),
        rule,
      ).toBe(counted(rule, size))
      for (const { atM } of there) expect(atM).toBeGreaterThanOrEqual(0)
      for (const { atM } of there) expect(atM).toBeLessThanOrEqual(size.lengthM + 1e-9)
    }
  })
})
