import { describe, expect, it } from 'vitest'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import { parseExactly, wideDigits } from '../../../geo/exchange/wideNumbers.ts'
import { farmWith } from './archiveOf.ts'

describe('a whole number of a JSON text', () => {
  // 2^53 + 1 is the first that a double does not hold (IEEE 754).
  it('comes by its digits where it would be rounded', () => {
    const digits = (text: string) => (parseExactly(text) as unknown[]).map(wideDigits)
    expect(digits('[9007199254740993, -12345678901234567891,9007199254740993]')).toEqual([
      '9007199254740993',
      '-12345678901234567891',
      '9007199254740993',
    ])
  })
  it('is as JSON.parse gives it where it would not, and so is all else', () => {
    const text =
      '{"a":[9007199254740992,9007199254740991,1e300,0.12345678901234567],"b":" 9007199254740993, \\" 9007199254740993 ]"}'
    expect(parseExactly(text)).toEqual(JSON.parse(text))
  })
  it('is kept by its digits as an id or a text, and is a fault of any other field', () => {
    const tree = (properties: string) =>
      `{"type":"Feature","geometry":{"type":"Point","coordinates":[8.03,47.41]},"properties":{"species":"x",${properties}}}`
    const trees = [
      tree('"id":12345678901234567890,"name":12345678901234567890'),
      tree('"id":12345678901234567891'),
      tree('"id":"t3","height_m":12345678901234567891'),
      tree('"id":"t4","osm":12345678901234567891'),
    ]
    const text = `{"type":"FeatureCollection","features":[${trees.join()}]}`
    const { faults, content } = readArchive(farmWith({ 'trees.geojson': text }))
    expect(content!.records.get('trees')!.map(({ id, name }) => [id, name])).toEqual([
      ['12345678901234567890', '12345678901234567890'],
      ['12345678901234567891', null],
    ])
    expect(faults.map(({ record, field }) => [record, field])).toEqual([
      ['feature 3 (t3)', 'height_m'],
      ['feature 4 (t4)', 'osm'],
    ])
    for (const { reason } of faults) expect(reason).toMatch(/12345678901234567891, which can't be kept exactly/)
  })
})
