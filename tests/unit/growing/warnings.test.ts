import { describe, expect, it } from 'vitest'
import { historyOf, stoodBefore } from '../../../geo/growing/bedHistory.ts'
import { standsOf } from '../../../geo/growing/stand.ts'
import { allWarnings } from '../../../geo/growing/warnings/allWarnings.ts'
import type { Warning, WarningKind } from '../../../geo/growing/warnings/warning.ts'
import { spreadOn } from '../../../geo/measure/canopy.ts'
import { partOfLine } from '../../../geo/plane/within.ts'
import { dayOf, walk } from './oracle.ts'
import { DAYS, randomGround } from './randomGround.ts'

// Against an oracle that walks the same farms day by day and centimetre by centimetre (tests/unit/growing/oracle.ts),
// which shares no line with what is tested.
const SEEDS = Array.from({ length: 16 }, (_, i) => i + 1)
const farms = SEEDS.map((seed) => {
  const farm = randomGround(seed)
  const on = dayOf(100 * seed)
  return { seed, farm, on, seen: walk(farm), warnings: allWarnings(farm.ground, on) }
})

type OfKind<K extends WarningKind> = Extract<Warning, { kind: K }>
const ofKind = <K extends WarningKind>(warnings: readonly Warning[], kind: K) =>
  warnings.filter((warning): warning is OfKind<K> => warning.kind === kind)

const year = (day: string, startMonth: number) =>
  Number(day.slice(0, 4)) - (Number(day.slice(5, 7)) < startMonth ? 1 : 0)

describe('warnings of seeded random farms, against a walk over them day by day and centimetre by centimetre', () => {
  it('tell every two plantings that stand on the same ground on the same day, from both sides, and no others', () => {
    let met = 0
    for (const { seen, warnings } of farms) {
      const told = ofKind(warnings, 'claimed')
      const expected = [...seen.together].flatMap(([key, day]) => {
        const [a, b] = key.split('|')
        return [`${a} ${b} ${day}`, `${b} ${a} ${day}`]
      })
      expect(told.map(({ planting, other, from }) => `${planting} ${other.planting} ${from}`).sort()).toEqual(
        expected.sort(),
      )
      met += expected.length
    }
    expect(met).toBeGreaterThan(100)
  })

  it('tell what stood on a stretch before, and nothing that did not', () => {
    let found = 0
    for (const { farm, seen } of farms) {
      for (const stand of standsOf(farm.ground)) {
        const history = historyOf(farm.ground, stand.bed)!
        const lane = history.lanes.find(({ row }) => row === stand.row)!
        const told = stoodBefore(history, lane, stand.span, stand.planting.set_out)
        const expected = [...seen.before.get(stand.planting.id)!].sort()
        expect(told.map(({ planting }) => planting).sort()).toEqual(expected)
        found += expected.length
      }
    }
    expect(found).toBeGreaterThan(200)
  })

  it('tell a family that is back too soon, and how soon', () => {
    let found = 0
    for (const { farm, seen, warnings } of farms) {
      const start = farm.ground.seasonStartMonth
      const cropOf = (id: string) => {
        const planting = farm.ground.plantings.find((one) => one.id === id)!
        return { planting, crop: farm.ground.crops.get(planting.variety.slice(2))! }
      }
      // By hand: tomato and potato are of one family, pea and clover of another; 4 and 3 years by the family, 2 and 1 as told.
      const kin: Record<string, string> = { tomato: 'S', potato: 'S', pea: 'F', clover: 'F', odd: 'O' }
      const years: Record<string, number> = { tomato: 4, potato: 2, pea: 3, clover: 1, odd: 0 }
      const expected: string[] = []
      for (const [id, days] of seen.days) {
        if (days.length === 0) continue
        const { planting, crop } = cropOf(id)
        let season = year(days[0]!, start)
        const endsMs = Date.UTC(season + 1, start - 1, 1)
        const leftDays = (endsMs - Date.parse(days[0]!)) / 86_400_000
        if (leftDays <= 92 && days.some((day) => year(day, start) > season)) season += 1
        const soonest = [...seen.before.get(id)!]
          .filter((other) => kin[cropOf(other).crop.id] === kin[crop.id])
          .map((other) => seen.days.get(other)!.at(-1)!)
          .filter((last) => last < planting.set_out)
          .filter((last) => season - year(last, start) < years[crop.id]!)
          .sort()
          .at(-1)
        if (soonest !== undefined) expected.push(`${id} ${season} after ${year(soonest, start)}`)
      }
      const told = ofKind(warnings, 'family back').map((w) => `${w.planting} ${w.season} after ${w.stoodInSeason}`)
      expect(told.sort()).toEqual(expected.sort())
      found += expected.length
    }
    expect(found).toBeGreaterThan(40)
  })

  it('tell a sensitive planting that roots reach while it stands, and from which day', () => {
    let [found, later] = [0, 0]
    for (const { farm, seen, warnings } of farms) {
      const expected: string[] = []
      for (const stand of standsOf(farm.ground)) {
        if (stand.crop.juglone !== 'sensitive' || stand.planting.cleared === null) continue
        for (const { tree, at } of farm.ground.sources) {
          let nearest = Number.POSITIVE_INFINITY
          const lengthM = stand.span[1] - stand.span[0]
          for (let m = 0; m <= lengthM + 1e-9; m += 0.005) {
            const [x, y] = partOfLine(stand.line, [Math.min(m, lengthM - 1e-9), lengthM])[0]!
            nearest = Math.min(nearest, Math.hypot(x - at[0], y - at[1]))
          }
          const first = seen.days
            .get(stand.planting.id)!
            .filter((day) => (tree.planted ?? day) <= day && (tree.removed === null || day < tree.removed))
            .find((day) => nearest <= spreadOn(tree, day).reachM)
          if (first === undefined) continue
          expected.push(`${stand.planting.id} ${tree.id} ${first}`)
          if (first > stand.planting.set_out) later += 1
        }
      }
      const cleared = new Set(farm.ground.plantings.filter((one) => one.cleared !== null).map(({ id }) => id))
      const told = ofKind(warnings, 'walnut').filter(({ planting }) => cleared.has(planting))
      expect(told.map((w) => `${w.planting} ${w.tree} ${w.from}`).sort()).toEqual(expected.sort())
      found += expected.length
    }
    expect(found).toBeGreaterThan(50)
    expect(later).toBeGreaterThan(2)
  })

  it('tell more plants than stand in a stretch when they are put down one by one', () => {
    let found = 0
    for (const { farm, seen, warnings } of farms) {
      const expected = standsOf(farm.ground).flatMap(({ planting, crop, row, span }) => {
        const usual = crop.usual_spacing_m ?? planting.spacing_m
        if (row === null || usual === null || seen.days.get(planting.id)!.length === 0) return []
        const endMm = Math.round((span[1] - span[0]) * 1000)
        const put = (spacingM: number) => {
          let plants = 0
          for (let mm = 0; mm <= endMm; mm += Math.round(spacingM * 1000)) plants += 1
          return plants
        }
        const told = planting.plants ?? (planting.spacing_m === null ? 0 : put(planting.spacing_m))
        return told > put(usual) ? [`${planting.id} ${told} of ${put(usual)}`] : []
      })
      const told = ofKind(warnings, 'dense').map((w) => `${w.planting} ${w.plants} of ${w.most}`)
      expect(told.sort()).toEqual(expected.sort())
      found += expected.length
    }
    expect(found).toBeGreaterThan(30)
  })

  it('tell how many metres of a climbing planting have no support within 0.6 m', () => {
    let found = 0
    for (const { farm, seen, on, warnings } of farms) {
      const told = new Map(ofKind(warnings, 'unheld').map((w) => [w.planting, w]))
      for (const { planting, crop, line, span } of standsOf(farm.ground)) {
        const days = seen.days.get(planting.id)!
        const warning = told.get(planting.id)
        if (!crop.climbs || days.length === 0) {
          expect(warning).toBeUndefined()
          continue
        }
        const day = days.includes(on) ? on : on < days[0]! ? days[0]! : planting.cleared === null ? on : days.at(-1)!
        const standing = farm.ground.supports.filter(
          ({ put_up, taken_down }) => (put_up === null || put_up <= day) && (taken_down === null || taken_down > day),
        )
        const lengthM = span[1] - span[0]
        let bare = 0
        for (let cm = 0; cm < Math.round(lengthM * 100); cm++) {
          const [x, y] = partOfLine(line, [(cm + 0.5) / 100, lengthM])[0]!
          const near = standing.some(({ line: [a, b] }) => {
            for (let t = 0; t <= 200; t++) {
              const [sx, sy] = [a![0] + ((b![0] - a![0]) * t) / 200, a![1] + ((b![1] - a![1]) * t) / 200]
              if (Math.hypot(sx - x, sy - y) <= 0.6) return true
            }
            return false
          })
          if (!near) bare += 1
        }
        // Two cut ends of a centimetre a support; what lies by the 10 cm from which it is told may fall either way.
        const bareM = bare / 100
        if (bareM > 0.15) expect(Math.abs(warning!.unheldM - bareM), planting.id).toBeLessThan(0.05)
        else if (bareM < 0.05) expect(warning).toBeUndefined()
        if (warning) found += 1
      }
    }
    expect(found).toBeGreaterThan(50)
  })

  // 7 CFR 205.203(c)(1)(ii)–(iii): 120 days where the edible part touches the soil, 90 where it does not (C).
  it('tell a harvest too soon after raw manure, by walking through the days of each planting and dressing', () => {
    const found: Record<string, number> = {}
    const days = Array.from({ length: DAYS + 400 }, (_, n) => dayOf(n))
    for (const { farm, warnings } of farms) {
      const expected: string[] = []
      for (const { planting, crop, bed } of standsOf(farm.ground)) {
        if (crop.id === 'clover') continue
        // Each day that it stands on, and whether it could be picked on it: the crop's days are over, or it was picked before.
        const picked = new Set(farm.ground.picked.get(planting.id))
        const stands = new Map<string, boolean>()
        let [age, bears] = [0, false]
        for (const day of days) {
          if (day < planting.set_out || (planting.cleared !== null && day >= planting.cleared)) continue
          bears ||= picked.has(day) || (crop.first_pick_days !== null && age >= crop.first_pick_days)
          stands.set(day, bears)
          age += 1
        }
        for (const { id, bed: dressed, on: dressedOn } of farm.ground.manure) {
          if (dressed !== bed) continue
          const since = days.slice(days.indexOf(dressedOn))
          const interval = since.slice(0, crop.id === 'tomato' ? 90 : 120)
          if (!interval.some((day) => stands.has(day))) continue
          const bore = [...stands].some(([day, could]) => could && day < dressedOn)
          // What never bore while it stood is taken in on the day that it is cleared.
          const canBe = (day: string) => stands.get(day) ?? (day === planting.cleared && !bears)
          const known = crop.first_pick_days !== null || picked.size > 0
          const pick = since.find((day) => picked.has(day))
          const harvest = pick ?? since.find((day) => known && canBe(day))
          if (harvest !== undefined && !interval.includes(harvest)) continue
          const how = pick !== undefined ? 'picked' : !known ? 'not known' : bore ? 'going on' : 'expected'
          expected.push(`${planting.id} ${id} ${since[interval.length]} ${how} ${harvest ?? ''}`)
          found[how] = (found[how] ?? 0) + 1
        }
      }
      const told = ofKind(warnings, 'manure').map(
        ({ planting, dressing, notBefore, harvest }) =>
          `${planting} ${dressing} ${notBefore} ${harvest?.how ?? 'not known'} ${harvest?.on ?? ''}`,
      )
      expect(told.sort()).toEqual(expected.sort())
    }
    for (const how of ['picked', 'going on', 'expected', 'not known']) expect(found[how], how).toBeGreaterThan(5)
  })

  it('give a source with every one', () => {
    for (const { warnings } of farms) for (const { source } of warnings) expect(source.length).toBeGreaterThan(10)
  })
})
