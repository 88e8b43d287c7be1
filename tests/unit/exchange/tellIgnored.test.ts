import { describe, expect, it } from 'vitest'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import { tellIgnored } from '../../../geo/exchange/tellIgnored.ts'
import { archiveOf, SOUND } from './archiveOf.ts'

const ONLY_FARM = { 'farm.json': SOUND['farm.json']! }
const meantBy = (file: string, more = {}) =>
  tellIgnored(readArchive(archiveOf({ ...ONLY_FARM, ...more, [file]: 'x' }))).map(({ meant }) => meant)

// By hand: what a person who named a file so would have meant.
describe('a file that the format does not know', () => {
  it.each([
    ['pick.csv', 'picks.csv'],
    ['bed.geojson', 'beds.geojson'],
    ['shares_.csv', 'shares.csv'],
    ['Planting.CSV', 'plantings.csv'],
    ['beds.json', 'beds.geojson'],
    ['rows.csv', 'rows.geojson'],
    ['picks.xlsx', 'picks.csv'],
    ['inner/trees.geojson', 'trees.geojson'],
    ['Photos/y.jpg', 'photos/y.jpg'],
    ['weather.csv', null],
    ['README.txt', null],
    ['photos/sub/picks.csv', null],
  ])('%s was likely meant to be %s', (file, meant) => {
    expect(meantBy(file)).toEqual([meant])
  })
  it('was not meant to be one that is there', () => {
    expect(meantBy('pick.csv', { 'picks.csv': SOUND['picks.csv'] })).toEqual([null])
  })
})
