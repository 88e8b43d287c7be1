import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ringsAreaM2 } from '../../../geo/yield/ring.ts'
import { resmoothed, yieldReport } from '../../../geo/yield/yieldReport.ts'
import { farms, planting, SETTINGS, season } from './farms.ts'
import { rectangle } from './shapes.ts'

const sum = (values: Iterable<number>): number => [...values].reduce((total, v) => total + v, 0)
const off = (value: number, wanted: number): number => Math.abs(value - wanted) / Math.max(wanted, 1)

describe('mass', () => {
  it('is on the cells what it was in the picks, before and after smoothing, bed by bed too', () => {
    fc.assert(
      fc.property(farms, fc.constantFrom(0.5, 1, 3), fc.constantFrom(0.7, 1.5, 4), (input, cellM, smoothM) => {
        const { plantings, beds, spots } = input.picks
        const picked = sum([...plantings, ...beds, ...spots].map((p) => p.kg))
        const report = yieldReport(input, { ...SETTINGS, cellM, smoothM })
        expect(off(report.totalKg, picked)).toBeLessThan(1e-9)
        expect(off(sum(report.masses.kg), picked)).toBeLessThan(1e-9)
        expect(off(sum(report.smooth.kg), picked)).toBeLessThan(1e-9)
        expect(off(sum(report.smooth.expectedKg), sum(report.masses.expectedKg))).toBeLessThan(1e-9)
        report.beds.forEach((bed, b) => {
          const onPieces = report.pieces.pieces.flatMap((piece, k) => (piece.bed === b ? [report.masses.kg[k]!] : []))
          expect(off(sum(onPieces), bed.kg)).toBeLessThan(1e-9)
        })
        const area = sum(input.beds.map((bed) => ringsAreaM2(bed.rings)))
        expect(off(sum(report.pieces.pieces.map((piece) => piece.areaM2)), area)).toBeLessThan(1e-9)
      }),
      { numRuns: 60, seed: 20250616 },
    )
  })

  it('is smoothed anew as it would have been from the picks', () => {
    fc.assert(
      fc.property(farms, (input) => {
        const anew = resmoothed(yieldReport(input, SETTINGS), 4)
        const plain = yieldReport(input, { ...SETTINGS, smoothM: 4 })
        expect(anew.smooth).toEqual(plain.smooth)
        expect(anew.settings).toEqual(plain.settings)
      }),
      { numRuns: 5, seed: 20250619 },
    )
  })

  it('is counted and expected alike over the farm: the mean is what the plantings gave', () => {
    fc.assert(
      fc.property(farms, (input) => {
        const { beds, crops } = yieldReport(input, SETTINGS)
        const counted = sum(beds.map((bed) => bed.countedKg))
        expect(off(counted, sum(beds.map((bed) => bed.expectedKg)))).toBeLessThan(1e-9)
        expect(off(counted, sum(crops.map((crop) => crop.kg)))).toBeLessThan(1e-9)
      }),
      { numRuns: 40, seed: 20250617 },
    )
  })

  it('lies evenly: a bed picked as a whole is as dense in every cell, and stays so when smoothed', () => {
    const beds = [{ id: 'a', rings: [rectangle(3.3, -7.1, 25, 1.3, 0.6)] }]
    const picks = { plantings: [], beds: [{ bed: 'a', kg: 50 }], spots: [] }
    const report = yieldReport(season({ beds, picks }), SETTINGS)
    const densest = 50 / (25 * 1.3)
    report.pieces.pieces.forEach(({ areaM2 }, k) => {
      expect(report.masses.kg[k]! / areaM2).toBeCloseTo(densest, 6)
    })
    report.smooth.kg.forEach((kg, k) => {
      expect(Math.abs(kg / report.pieces.pieces[k]!.areaM2 / densest - 1)).toBeLessThan(2e-4)
    })
    expect(sum(report.smooth.kg)).toBeCloseTo(50, 9)
  })

  it('is known by what it was told of: how many picks take a cell in, what of them the whole bed or a spot', () => {
    // A bed of 10 m by 1 m in cells of 1 m; a row picked from 0 to 5 m, the bed as a whole, and a spot 8.5 m along.
    const bed = { id: 'a', rings: [rectangle(0, 0, 10, 1, 0)] }
    const row = { id: 'r', bed: 'a', line: [0, 0.5, 10, 0.5] }
    const told = season({
      beds: [bed],
      rows: [row],
      plantings: [planting('p', 'a', 'tomato', { row: 'r', fromM: 0, toM: 5 })],
      picks: {
        plantings: [{ planting: 'p', kg: 10, picks: 4 }],
        beds: [{ bed: 'a', kg: 20, picks: 2 }],
        spots: [{ x: 8.5, y: 0.5, kg: 3, picks: 1 }],
      },
    })
    const { pieces, masses } = yieldReport(told, SETTINGS)
    const at = (i: number) => pieces.pieces.findIndex((piece) => piece.i === i)
    const tells = (k: number) => [masses.picks[k], masses.kg[k]!, masses.bedKg[k]!, masses.spotKg[k]!]
    // By hand: 20 kg over ten cells are 2 kg each; 10 kg over the five cells of the stretch are 2 kg each more.
    expect(tells(at(2))).toEqual([6, expect.closeTo(4, 9), expect.closeTo(2, 9), 0])
    expect(tells(at(6))).toEqual([2, expect.closeTo(2, 9), expect.closeTo(2, 9), 0])
    expect(masses.picks[at(8)]).toBe(3)
    expect(sum(masses.spotKg)).toBeCloseTo(3, 9)
    expect(sum(masses.bedKg)).toBeCloseTo(20, 9)
  })

  it('is smoothed as plain sums over all pairs of cells have it, scaled until all give as much as they get', () => {
    // Oracle: the definition, every pair of cells, no passes along axes and no clusters; scaled 300 times over.
    fc.assert(
      fc.property(farms, (input) => {
        const { pieces, masses, smooth } = yieldReport(input, SETTINGS)
        const cells = new Map<string, { i: number; j: number; areaM2: number; kg: number }>()
        pieces.pieces.forEach(({ i, j, areaM2 }, k) => {
          const cell = cells.get(`${i} ${j}`) ?? { i, j, areaM2: 0, kg: 0 }
          cells.set(`${i} ${j}`, { i, j, areaM2: cell.areaM2 + areaM2, kg: cell.kg + masses.kg[k]! })
        })
        const all = [...cells.values()]
        const bell = all.map((a) =>
          all.map((b) => {
            const [di, dj] = [Math.abs(a.i - b.i), Math.abs(a.j - b.j)]
            return di <= 4 && dj <= 4 ? Math.exp(-(di ** 2 + dj ** 2) / (2 * 1.5 ** 2)) : 0
          }),
        )
        const reachOf = (scale: readonly number[]) =>
          bell.map((row) => row.reduce((total, k, j) => (k === 0 ? total : total + all[j]!.areaM2 * k * scale[j]!), 0))
        let scale = all.map(() => 1)
        for (let round = 0; round < 300; round += 1) {
          const reach = reachOf(scale)
          scale = scale.map((s, i) => Math.sqrt(s / reach[i]!))
        }
        const reach = reachOf(scale)
        const wanted = new Map(
          all.map(({ i, j }, to) => {
            const got = bell[to]!.reduce((total, k, from) => total + (k * all[from]!.kg) / reach[from]!, 0)
            return [`${i} ${j}`, scale[to]! * got] as const
          }),
        )
        pieces.pieces.forEach(({ i, j, areaM2 }, k) => {
          expect(Math.abs(smooth.kg[k]! - areaM2 * wanted.get(`${i} ${j}`)!)).toBeLessThan(1e-3)
        })
      }),
      { numRuns: 4, seed: 20250618 },
    )
  })
})
