import { describe, expect, it } from 'vitest'
import { rampColour, rampStops } from '../../../src/map/theme/ramps.ts'

const near = (got: readonly number[], want: readonly number[], within: number) => {
  for (const [i, channel] of want.entries()) expect(Math.abs(got[i]! - channel)).toBeLessThanOrEqual(within)
}

describe('the ramp of amounts', () => {
  // Entries of the 256-entry cividis table (Nuñez, Anderton & Renslow 2018), read in matplotlib's _cm_listed.py (C2).
  const TABLE: Readonly<Record<number, readonly [number, number, number]>> = {
    0: [0.0, 0.135112, 0.304751],
    10: [0.0, 0.163058, 0.371608],
    26: [0.046205, 0.203903, 0.440196],
    32: [0.103401, 0.220406, 0.43579],
    51: [0.208926, 0.272546, 0.424809],
    64: [0.263738, 0.307831, 0.422789],
    85: [0.342246, 0.364939, 0.428559],
    100: [0.394568, 0.406236, 0.438986],
    240: [0.941147, 0.84753, 0.275815],
    245: [0.963872, 0.866089, 0.247445],
    251: [0.992218, 0.888385, 0.205468],
    255: [0.995737, 0.909344, 0.217772],
  }
  it.each(Object.entries(TABLE))('is cividis at entry %s', (entry, rgb) => {
    const colour = rampColour({ of: 'amount', most: 8.5 }, (8.5 * Number(entry)) / 255)
    near(
      colour,
      rgb.map((c) => c * 255),
      3,
    )
  })
  it('grows lighter all the way, so that it reads without colour', () => {
    const light = Array.from({ length: 101 }, (_, i) => {
      const [r, g, b] = rampColour({ of: 'amount', most: 1 }, i / 100)
      return 0.2126 * r + 0.7152 * g + 0.0722 * b
    })
    for (let i = 1; i < light.length; i++) expect(light[i]!).toBeGreaterThan(light[i - 1]!)
  })
  it('has no ramp up to nothing', () => {
    expect(() => rampStops({ of: 'amount', most: 0 })).toThrow('no ramp from 0 up to 0')
    expect(() => rampStops({ of: 'amount', least: 2, most: 1 })).toThrow('no ramp')
    expect(rampStops({ of: 'amount', least: 2, most: 4 }).map(([at]) => at)).toEqual(
      rampStops({ of: 'amount', most: 1 }).map(([at]) => 2 + 2 * at),
    )
  })
})

describe('the ramp about par', () => {
  // ColorBrewer RdYlBu, 11 classes (colorbrewer2.org; M).
  it('is RdYlBu with its middle at par and its ends half off it', () => {
    near(rampColour({ of: 'par' }, 0.5), [165, 0, 38], 0)
    near(rampColour({ of: 'par' }, 0.8), [253, 174, 97], 0.01)
    near(rampColour({ of: 'par' }, 1), [255, 255, 191], 0)
    near(rampColour({ of: 'par' }, 1.2), [171, 217, 233], 0.01)
    near(rampColour({ of: 'par' }, 1.5), [49, 54, 149], 0)
  })
  it('holds its ends beyond', () => {
    near(rampColour({ of: 'par' }, 0), [165, 0, 38], 0)
    near(rampColour({ of: 'par' }, 4), [49, 54, 149], 0)
  })
})
