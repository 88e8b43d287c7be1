import { readFile } from 'node:fs/promises'
import type { LayerSpecification } from 'maplibre-gl'
import { describe, expect, it } from 'vitest'
import { SHEETS } from '../../../src/map/farmMap.ts'
import { DAY, NIGHT, SUN } from '../../../src/map/theme/palette.ts'
import { layersFor, SOURCES } from '../../../src/map/theme/styleFor.ts'

const themes = SHEETS.flatMap((sheet) =>
  [DAY, NIGHT, SUN].flatMap((palette) =>
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

/** The colours that the page sets in the look for sun, by name. */
function sunTokens(css: string): Map<string, string> {
  const block = /:root\[data-light="sun"\] \{([^}]+)\}/.exec(css)![1]!
  return new Map([...block.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name, colour]) => [name!, colour!]))
}

describe('themes', () => {
  it('have the same layers in the same order on every sheet, by day, by night and in sun, over photos or not', () => {
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
  it('keeps every word at 7 : 1 in sun (WCAG 2.2, 1.4.6), and lines at 4.5 : 1', () => {
    for (const ground of [SUN.paper, SUN.field, SUN.bed]) {
      for (const text of [SUN.ink, SUN.soft, SUN.tree, SUN.madder])
        expect(contrast(text, ground)).toBeGreaterThanOrEqual(7)
      expect(contrast(SUN.water, ground)).toBeGreaterThanOrEqual(4.5)
    }
  })
  it('is the page’s own look in sun as it is the map’s', async () => {
    const tokens = sunTokens(await readFile(new URL('../../../src/styles/tokens.css', import.meta.url), 'utf8'))
    for (const [name, ours] of Object.entries({
      paper: SUN.paper,
      ink: SUN.ink,
      soft: SUN.soft,
      rule: SUN.rule,
      madder: SUN.madder,
      tree: SUN.tree,
      water: SUN.water,
    }))
      expect([name, tokens.get(name)]).toEqual([name, ours])
    const on = (text: string, ground: string) => contrast(tokens.get(text)!, tokens.get(ground)!)
    for (const ground of ['paper', 'sheet', 'ground', 'wash']) {
      for (const text of ['ink', 'soft', 'madder', 'tree', 'water']) expect(on(text, ground)).toBeGreaterThanOrEqual(7)
      expect(on('line', ground)).toBeGreaterThanOrEqual(4.5)
    }
    expect(on('on-madder', 'madder')).toBeGreaterThanOrEqual(7)
    expect(on('on-ink', 'ink')).toBeGreaterThanOrEqual(7)
    expect(on('accent-on-ink', 'ink')).toBeGreaterThanOrEqual(7)
    expect(on('rule', 'sheet')).toBeGreaterThanOrEqual(3)
    expect(on('bar', 'sheet')).toBeGreaterThanOrEqual(3)
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
