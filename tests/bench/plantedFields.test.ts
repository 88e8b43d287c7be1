import { describe, expect, it } from 'vitest'
import { searchFields } from '../unit/yield/searchFields.ts'
import { useFigures } from './figures.ts'

/** Fields of each kind; fewer where `SELION_FIELDS` says so. */
const FIELDS = Number(process.env.SELION_FIELDS ?? 200)

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`

/**
 * Seeded fields of 48 beds of 30 m, 1,728 m², with chance between stretches and, planted, a disc of 5 % of the ground that
 * gives 30 % less, about a tree or things seen. Chance of 20 % lies between what uniformity trials tell: 12 % of wheat
 * plots of 8 m² (Mercer & Hall 1911), 25 % of tomato plots of 13 m² (Hartman & Stair 1942), patches of the ground included.
 * Recall: fields on which some zone overlaps the planted ground. A false zone: any where nothing is planted.
 */
describe(`${FIELDS} fields of each kind`, () => {
  const tell = useFigures()

  it.each([
    [5, 0.2],
    [5, 0.25],
    [10, 0.2],
    [10, 0.15],
  ])('with picks told by stretches of %i m and chance of %f between them', (stretchM, noise) => {
    const nothing = searchFields(FIELDS, { shortfall: 0, share: 0.05, stretchM, noise })
    const planted = searchFields(FIELDS, { shortfall: 0.3, share: 0.05, stretchM, noise })
    const where = `${stretchM} m, ${percent(noise)}`
    const isMain = stretchM === 5 && noise === 0.2
    tell(`fields with a false zone (${where})`, percent(nothing.falseFields), isMain ? '≤ 5 %' : '')
    tell(`fields with a false link (${where})`, percent(nothing.falseLinks), '')
    tell(`planted ground found (${where})`, percent(planted.recall), isMain ? '≥ 80 %' : '')
    tell(`share of the planted ground in zones (${where})`, percent(planted.groundFound), '')
    tell(`fields with a zone off the planted ground (${where})`, percent(planted.falseFields), '')
    tell(`planted cause ranks first (${where})`, percent(planted.causeFirst), isMain ? '≥ 80 %' : '')
    if (!isMain) return
    expect(nothing.falseFields).toBeLessThanOrEqual(0.05)
    expect(planted.recall).toBeGreaterThanOrEqual(0.8)
    expect(planted.causeFirst).toBeGreaterThanOrEqual(0.8)
  })
})
