import { describe, expect, it } from 'vitest'
import { firstFitDecreasing, packRolls } from '../../../geo/supports/packRolls.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'

/** Fewest rolls by trying every way of putting pieces together (sets of the rest, each that fits in a roll). */
function fewest(pieces: readonly number[], rollM: number): number {
  const whole = (1 << pieces.length) - 1
  const fits = (set: number) => pieces.reduce((sum, piece, n) => sum + (set & (1 << n) ? piece : 0), 0) <= rollM + 1e-9
  const rolls = new Array<number>(whole + 1).fill(Number.POSITIVE_INFINITY)
  rolls[0] = 0
  for (let set = 1; set <= whole; set++)
    for (let part = set; part > 0; part = (part - 1) & set)
      if (fits(part)) rolls[set] = Math.min(rolls[set]!, rolls[set ^ part]! + 1)
  return rolls[whole]!
}

describe('rolls cut over runs', () => {
  it('are as few as the best of all ways, on 200 seeded cases of up to nine pieces', () => {
    const random = seededRandom(20251101)
    let beaten = 0
    for (let n = 0; n < 200; n++) {
      const rollM = 20 + Math.floor(random() * 80)
      // Every other case is of rolls cut up without waste, which first-fit-decreasing often misses.
      const pieces =
        n % 2 === 0
          ? Array.from({ length: 1 + Math.floor(random() * 9) }, () => 1 + Math.floor(random() * rollM * 0.8))
          : [1, 2, 3].flatMap(() => {
              const first = 2 + Math.floor(random() * (rollM / 2))
              const second = 1 + Math.floor(random() * (rollM - first - 1))
              return [first, second, rollM - first - second].filter((piece) => piece > 0)
            })
      const { rolls, wasteM, best } = packRolls(pieces, rollM)
      expect(rolls.length, JSON.stringify({ pieces, rollM })).toBe(fewest(pieces, rollM))
      expect(best).toBe(true)
      expect(rolls.flat().sort((a, b) => a - b)).toEqual([...pieces].sort((a, b) => a - b))
      for (const roll of rolls) expect(roll.reduce((sum, cut) => sum + cut, 0)).toBeLessThanOrEqual(rollM + 1e-9)
      expect(wasteM).toBeCloseTo(rolls.length * rollM - pieces.reduce((sum, piece) => sum + piece, 0), 9)
      if (
        rolls.length <
        firstFitDecreasing(
          [...pieces].sort((a, b) => b - a),
          rollM,
        ).length
      )
        beaten++
    }
    // Else the cases would not tell this from first-fit-decreasing.
    expect(beaten).toBeGreaterThan(0)
  })

  it('are never more than first-fit-decreasing takes, on cases too large to search', () => {
    const random = seededRandom(7)
    for (let n = 0; n < 4; n++) {
      const pieces = Array.from({ length: 200 }, () => 3 + random() * 60)
      const first = firstFitDecreasing(
        [...pieces].sort((a, b) => b - a),
        100,
      ).length
      expect(packRolls(pieces, 100).rolls.length).toBeLessThanOrEqual(first)
    }
  })

  it('take whole rolls for a run longer than one, and join the rest on', () => {
    const { rolls, wasteM } = packRolls([130, 20], 50)
    expect(rolls).toEqual([[50], [50], [30, 20]])
    expect(wasteM).toBeCloseTo(0, 9)
  })

  it.each([
    [[0], 50],
    [[-3], 50],
    [[Number.NaN], 50],
    [[3], 0],
  ])('refuse %j from rolls of %d m', (pieces, rollM) => {
    expect(() => packRolls(pieces, rollM)).toThrow(RangeError)
  })
})
