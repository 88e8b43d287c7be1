import type { LayerSpecification } from 'maplibre-gl'
import { describe, expect, it } from 'vitest'
import { SHEETS } from '../../../src/map/farmMap.ts'
import { DAY, NIGHT } from '../../../src/map/theme/palette.ts'
import { layersFor, SOURCES } from '../../../src/map/theme/styleFor.ts'

const themes = SHEETS.flatMap((sheet) =>
  [DAY, NIGHT].flatMap((palette) =>
    [true, false].map((overPhoto) => ({ sheet, palette, overPhoto, today: '2026-07-01' })),
  ),
)
const bones = (layers: readonly LayerSpecification[]) =>
  layers.map((layer) => ({ id: layer.id, type: layer.type, source: 'source' in layer ? layer.source : null }))

/** Contrast by WCAG 2.2: relative luminances (sRGB) plus 0.05, the lighter over the darker (w3.org/TR/WCAG22, C). */
function contrast(a: string, b: string): number {
  const [high, low] = [a, b]
    .map((hex) => {
      const [r, g, bl] = [1, 3, 5]
        .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
        .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4))
      return 0.2126 * r! + 0.7152 * g! + 0.0722 * bl!
    })
    .sort((x, y) => y - x)
  return (high! + 0.05) / (low! + 0.05)
}

describe('themes', () => {
  it('have the same layers in the same order on every sheet, by day and night, over photos or not', () => {
    const first = bones(layersFor(themes[0]!, { of: 'par' }))
    expect(new Set(first.map((layer) => layer.id)).size).toBe(first.length)
    for (const theme of themes) expect(bones(layersFor(theme, { of: 'amount', most: 3 }))).toEqual(first)
  })
  it('draw from every source', () => {
    const used = new Set(bones(layersFor(themes[0]!, { of: 'par' })).map((layer) => layer.source))
    expect(SOURCES.filter((source) => !used.has(source))).toEqual([])
  })
  it('show coloured ground on the sheets of yield and siting, zones on the first alone', () => {
    const seen = (sheet: (typeof SHEETS)[number], id: string) => {
      const layer = layersFor({ sheet, palette: DAY, overPhoto: false, today: '2026-07-01' }, { of: 'par' }).find(
        (one) => one.id === id,
      )
      return layer?.layout?.visibility !== 'none'
    }
    expect(SHEETS.filter((sheet) => seen(sheet, 'surface'))).toEqual(['yield', 'siting'])
    expect(SHEETS.filter((sheet) => seen(sheet, 'zone-line'))).toEqual(['yield'])
  })
  it.each([
    ['day', DAY],
    ['night', NIGHT],
  ] as const)('keep words at 4.5 : 1 and lines at 3 : 1 on every ground by %s', (_, palette) => {
    for (const ground of [palette.paper, palette.field, palette.bed]) {
      for (const text of [palette.ink, palette.soft, palette.tree, palette.madder])
        expect(contrast(text, ground)).toBeGreaterThanOrEqual(4.5)
      expect(contrast(palette.water, ground)).toBeGreaterThanOrEqual(3)
    }
  })
  it.each([
    ['support-season', 'support-permanent'],
    ['stretch-held', 'stretch-unheld'],
    ['bed-line', 'bed-line-away'],
    ['canopy-line', 'canopy-line-assumed'],
  ])('tell %s from %s by more than colour', (one, other) => {
    const layers = layersFor({ sheet: 'supports', palette: DAY, overPhoto: false, today: '2026-07-01' }, { of: 'par' })
    const marks = (id: string) => {
      const layer = layers.find((candidate) => candidate.id === id)
      if (layer?.type !== 'line') throw new Error(`no line ${id}`)
      return [layer.paint?.['line-dasharray'], layer.paint?.['line-gap-width']]
    }
    expect(marks(one)).not.toEqual(marks(other))
  })
})
