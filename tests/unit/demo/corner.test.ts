import { describe, expect, it } from 'vitest'
import { type GrownDemo, growDemo } from '../../../fixtures/demo/growDemo.ts'
import { outline } from '../../../fixtures/demo/layout.ts'
import { unitKg } from '../../../fixtures/demo/picks.ts'
import { distanceM, shifted } from '../../../fixtures/demo/plane.ts'
import type { Planting } from '../../../fixtures/demo/plantings.ts'
import { trees } from '../../../fixtures/demo/trees.ts'
import type { YieldInput } from '../../../geo/yield/yieldInput.ts'
import { yieldReport } from '../../../geo/yield/yieldReport.ts'

const seasons = [2024, 2025, 2026]
const trunk = trees.find((tree) => tree.id === 't-old-black')!.at

/** kg of each planting picked in a season. */
function kgOf({ picks }: GrownDemo, season: number): Map<Planting, number> {
  const sums = new Map<Planting, number>()
  for (const { planting, quantity, unit } of picks) {
    if (planting.season !== season) continue
    sums.set(planting, (sums.get(planting) ?? 0) + quantity * unitKg(unit, planting.line.crop.id))
  }
  return sums
}

/** From the old walnut's trunk to the middle of a stretch. */
const fromTrunkM = ({ row, bed, fromM, toM }: Planting) =>
  distanceM(trunk, shifted(row!.from, bed.along, (fromM + toM) / 2, bed.right, 0))

const perM = ([planting, kg]: [Planting, number]) => kg / (planting.toM - planting.fromM)
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

describe('the corner by the old black walnut', () => {
  it.each(seasons)(
    'in season %i gives 35–60 per cent less of sensitive crops than the far ends of the same rows',
    (season) => {
      const sensitive = [...kgOf(growDemo(1), season)].filter(([one]) => one.line.crop.juglone === 'sensitive')
      const near = sensitive.filter(([one]) => fromTrunkM(one) < 14)
      const beds = new Set(near.map(([one]) => one.bed))
      const far = sensitive.filter(([one]) => beds.has(one.bed) && fromTrunkM(one) > 22)
      expect(near.length).toBeGreaterThanOrEqual(9)
      const part = mean(near.map(perM)) / mean(far.map(perM))
      expect(part).toBeGreaterThan(0.4)
      expect(part).toBeLessThan(0.65)
    },
  )

  it.each(seasons)(
    'in season %i is the only place that differs by more than chance would: elsewhere rows of one crop are even',
    (season) => {
      const far = [...kgOf(growDemo(1), season)].filter(([one]) => fromTrunkM(one) > 22)
      const byRow = new Map<string, [Planting, number][]>()
      for (const entry of far) {
        const key = `${entry[0].bed.id} ${entry[0].line.crop.id}`
        byRow.set(key, [...(byRow.get(key) ?? []), entry])
      }
      const ratios = [...byRow.values()]
        .filter((group) => group.length > 1)
        .flatMap((group) => group.map((one) => perM(one) / mean(group.map(perM))))
      expect(ratios.length).toBeGreaterThan(100)
      expect(ratios.filter((ratio) => Math.abs(ratio - 1) < 0.15).length / ratios.length).toBeGreaterThan(0.9)
    },
  )

  // Settings as computing.md gives them: stretches of 4 m, 5 % false discoveries.
  it.each(seasons)('in season %i is the one low-yield zone that the tool finds', (season) => {
    const grown = growDemo(1)
    const report = yieldReport(yieldInput(grown, season), { cellM: 1, smoothM: 0, stretchM: 4, bandM: 6, alpha: 0.05 })
    expect(report.zones).toHaveLength(1)
    const [zone] = report.zones
    const names = zone!.beds.map((k) => grown.beds[k]!.name)
    expect(
      names.every((name) => /^O([1-9]|1[0-2])$/.test(name)),
      names.join(),
    ).toBe(true)
    expect(names.length).toBeGreaterThanOrEqual(6)
    expect(zone!.index).toBeLessThan(0.8)
  })
})

// New England Vegetable Guide, table 15, lb an acre, low and excellent (C, by reference values of the project's design).
const guide: Record<string, [low: number, excellent: number]> = {
  cabbage: [20e3, 40e3],
  carrot: [20e3, 30e3],
  cucumber: [12e3, 26e3],
  eggplant: [16e3, 24e3],
  garlic: [2e3, 6e3],
  leek: [28e3, 36e3],
}

it('yields as market gardens do: from half the guide’s low to a third over its excellent, paths counted', () => {
  const found = new Map<string, { kg: number; m2: number }>()
  const grown = growDemo(1)
  for (const season of seasons) {
    const kg = kgOf(grown, season)
    for (const bed of grown.beds) {
      const here = grown.plantings.filter((one) => one.bed === bed && one.season === season)
      const crop = here[0]?.line.crop.id
      if (!crop || !guide[crop] || here.some((one) => one.line.crop.id !== crop)) continue
      const sum = found.get(crop) ?? { kg: 0, m2: 0 }
      sum.kg += here.reduce((total, one) => total + (kg.get(one) ?? 0), 0)
      sum.m2 += bed.lengthM * (bed.widthM + bed.block.pathM)
      found.set(crop, sum)
    }
  }
  expect(found.size).toBeGreaterThanOrEqual(5)
  for (const [crop, { kg, m2 }] of found) {
    const lbPerAcre = kg / 0.45359237 / (m2 / 4046.8564224)
    const [low, excellent] = guide[crop]!
    expect(lbPerAcre, crop).toBeGreaterThan(low / 2)
    expect(lbPerAcre, crop).toBeLessThan((excellent * 4) / 3)
  }
})

function yieldInput(grown: GrownDemo, season: number): YieldInput {
  return {
    season,
    span: { from: `${season}-01-01`, to: `${season}-12-31` },
    beds: grown.beds.map((bed) => {
      const corners = outline(bed)
      return { id: bed.id, rings: [[...corners, corners[0]!].flat()] }
    }),
    rows: grown.beds.flatMap((bed) =>
      bed.rows.map((row) => ({ id: row.id, bed: bed.id, line: [...row.from, ...row.to] })),
    ),
    plantings: grown.plantings.map((one) => ({
      id: one.id,
      bed: one.bed.id,
      row: one.row?.id ?? null,
      crop: one.line.crop.id,
      fromM: one.row ? one.fromM : null,
      toM: one.row ? one.toM : null,
      setOut: one.setOut,
      cleared: one.cleared,
      middle: one.row
        ? null
        : [...one.bed.start, ...shifted(one.bed.start, one.bed.along, one.bed.lengthM, one.bed.right, 0)],
    })),
    picks: {
      plantings: [...kgOf(grown, season)].map(([one, kg]) => ({ planting: one.id, kg, picks: 1 })),
      beds: [],
      spots: [],
      unweighed: 0,
    },
  }
}
