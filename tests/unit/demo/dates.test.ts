import { describe, expect, it } from 'vitest'
import { type Line, number, openDemo } from './opened.ts'

const demo = openDemo()
const today = '2026-11-24'
const plantingOf = new Map(demo.plantings.map((planting) => [planting.id, planting]))
const bedOfRow = new Map(demo.rows.map((row) => [row.properties.id, String(row.properties.bed)]))

describe('the demo farm through its seasons', () => {
  it('has every date in order', () => {
    for (const { set_out = '', cleared } of demo.plantings) if (cleared) expect(cleared > set_out).toBe(true)
    for (const { properties: run } of demo.supports) {
      if (run.taken_down) expect(String(run.taken_down) > String(run.put_up)).toBe(true)
      else expect(run.permanent || String(run.note).startsWith('Left up')).toBeTruthy()
    }
    for (const { properties: tree } of demo.trees) if (tree.removed) expect(tree.removed > tree.planted!).toBe(true)
  })

  it('picks only what stands, and nothing after the last day', () => {
    for (const pick of demo.picks) {
      expect(pick.on! <= today).toBe(true)
      expect(number(pick.quantity)).toBeGreaterThan(0)
      if (!pick.planting) continue
      const { set_out, cleared } = plantingOf.get(pick.planting)!
      expect(
        pick.on! > set_out! && (!cleared || pick.on! <= cleared),
        `${pick.id} on ${pick.on}, ${set_out}–${cleared}`,
      ).toBe(true)
    }
  })

  it('never has two plantings in one stretch of row on one day', () => {
    const clashes: string[] = []
    const overlap = (a: Line, b: Line) =>
      a.set_out! < (b.cleared || '9999') &&
      b.set_out! < (a.cleared || '9999') &&
      (!a.row || !b.row || (number(a.from_m) < number(b.to_m) && number(b.from_m) < number(a.to_m)))
    const bedOf = (one: Line) => one.bed || bedOfRow.get(one.row ?? '')
    for (const [i, a] of demo.plantings.entries()) {
      for (const b of demo.plantings.slice(i + 1)) {
        const together = a.row && b.row ? a.row === b.row : bedOf(a) === bedOf(b)
        if (together && overlap(a, b)) clashes.push(`${a.id} ${b.id}`)
      }
    }
    expect(clashes).toEqual([])
  })

  it('sets no planting out in a row that a stock lot holds', () => {
    const clashes = demo.lots.flatMap((lot) =>
      demo.plantings
        .filter((one) => one.row === lot.row && (one.cleared || '9999') > `${lot.year}-03-01`)
        .map((one) => `${lot.id} ${one.id}`),
    )
    expect(clashes).toEqual([])
  })

  it('grows leeks beside nursery stock', () => {
    const stocked = new Set(demo.lots.map((lot) => bedOfRow.get(lot.row ?? '')))
    const leeks = demo.plantings.filter(
      (one) => one.variety?.startsWith('v-leek') && stocked.has(bedOfRow.get(one.row ?? '')),
    )
    expect(leeks.length).toBeGreaterThanOrEqual(12)
  })
})
