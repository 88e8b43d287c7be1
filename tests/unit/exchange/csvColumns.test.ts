import { describe, expect, it } from 'vitest'
import { driverFor } from '../../../geo/exchange/drivers.ts'
import type { Found, PlaceChoice } from '../../../geo/exchange/layers/found.ts'
import { noPause } from '../../../geo/store/pace.ts'

const look = (text: string, columns: PlaceChoice | null = null, grid: string | null = null): Promise<Found> =>
  driverFor('spots.csv')!.look!(new TextEncoder().encode(text), {
    fileName: 'spots.csv',
    grid,
    columns,
    pace: noPause,
    sqliteUrl: null,
  })
const places = ({ layers }: Found) =>
  layers.flatMap(({ features }) =>
    features.map(({ geometry }) => (geometry?.type === 'Point' ? geometry.coordinates : null)),
  )
const told = ({ notes }: Found) => notes.map(({ record, field, reason }) => `${record}|${field}|${reason}`)

/** A spot by Ptuj, as its latitude and longitude are written. */
const [LAT, LON] = ['46.3371', '15.6401']
const SPOT = [15.6401, 46.3371]
/** Its northing and easting in UTM 33N (EPSG:32633), by GDAL’s gdaltransform. */
const METRES = '5131701.794,549262.521'

describe('columns of coordinates are known by their names', () => {
  // Spellings as they stand in exports of loggers, spreadsheets and surveys, and as the languages have them (by hand).
  it.each([
    'gps_lat,gps_lon',
    'Latitude_WGS84,Longitude_WGS84',
    'latitud,longitud',
    'latitudine,longitudine',
    'Latitude (°),Longitude (°)',
    'GPSLatitude,GPSLongitude',
    'gpslat,gpslng',
    'LAT_DD,LONG_DD',
    'tree lat,tree lng',
    'Breitengrad,Längengrad',
    'Breitengrad,Laengengrad',
    'breddegrad,længdegrad',
    'breedtegraad,lengtegraad',
    'leveysaste,pituusaste',
    'enlem,boylam',
    'широта,долгота',
    '纬度,经度',
    '緯度,経度',
    '위도,경도',
    'Breite,Länge',
    'geogr. Breite,geogr. Laenge',
    'zemljepisna širina,zemljepisna dolžina',
    'zeměpisná šířka,zeměpisná délka',
    'szélesség,hosszúság',
    'γεωγραφικό πλάτος,γεωγραφικό μήκος',
    'y_coord,x_coord',
    'Y-Koordinate,X-Koordinate',
    'coord_y,coord_x',
    'ycoord,xcoord',
    'northing,easting',
    'utm_n,utm_e',
    'Hochwert,Rechtswert',
  ])('%s', async (head) => {
    const found = await look(`name,${head}\nPear,${LAT},${LON}\n`)
    expect(places(found)).toEqual([SPOT])
    const [north, east] = head.split(',')
    expect(found.table!.taken).toEqual({ north, east })
    expect(told(found)).toEqual([expect.stringMatching(/^line 1\|coordinates\|its coordinates are taken from/)])
    expect(told(found)[0]).toContain(JSON.stringify(north))
    expect(told(found)[0]).toContain(JSON.stringify(east))
  })
  it('with semicolons and decimal commas', async () => {
    expect(places(await look('Name;Breite;Laenge\nBirne;46,3371;15,6401\n'))).toEqual([SPOT])
  })
  it('whichever stands first, and the pair whose words belong together', async () => {
    expect(places(await look(`Longitude_WGS84,Latitude_WGS84\n${LON},${LAT}\n`))).toEqual([SPOT])
    const two = await look(`from_lat,to_lon,to_lat,from_lon\n${LAT},9,8,${LON}\n`)
    expect(places(two)).toEqual([SPOT])
    // Plain names before others, degrees before a grid's.
    const all = await look(`x,y,base_lat,base_lon,lat,lon\n1,2,3,4,${LAT},${LON}\n`)
    expect(places(all)).toEqual([SPOT])
  })
  it.each([
    ['coordinates', '"46.3371, 15.6401"'],
    ['Spot', '"46.3371,15.6401"'],
    ['gps', '46.3371 15.6401'],
    ['latlon', '"(46.3371; 15.6401)"'],
    ['where', '"46,3371; 15,6401"'],
    ['lonlat', '"15.6401, 46.3371"'],
  ])('or one column holds both: %s', async (head, cell) => {
    const found = await look(`name,${head}\nPear,${cell}\n`)
    expect(places(found)).toEqual([SPOT])
    expect(found.table!.taken).toEqual({ north: head, east: head })
    expect(told(found)).toEqual([expect.stringContaining(`from the column ${JSON.stringify(head)}`)])
  })
  it('no cell that is no pair is read as one', async () => {
    expect(places(await look('name,gps\nPear,"46.3371, 15.6401"\nPlum,"46.3371, east"\nQuince,\n'))).toEqual([
      SPOT,
      null,
      null,
    ])
  })
})

describe('what is only named so is not taken', () => {
  it.each([
    ['width and length in metres', 'name,Breite,Länge\nBeet,1.20,40.5\n', /"1\.20" in line 2, which may be a width/],
    ['a number that no latitude is', `name,lat,lon\nPear,461.3,${LON}\n`, /"461\.3" in line 2, and no latitude lies/],
    ['one that no longitude is', `name,lat,lon\nPear,${LAT},515.6\n`, /"515\.6" in line 2, and no longitude lies/],
    ['words', 'name,lat,lon\nPear,by the well,behind it\n', /"by the well" in line 2, which is not a number/],
    ['counts by the letters N and E', 'name,n_plants,e_plants\nPear,12,13\n', /has no columns of coordinates: lon/],
    ['sizes of some other thing', 'name,size\nPear,"1.20, 40"\n', /has no columns of coordinates: lon/],
  ])('%s', async (_, text, why) => {
    const found = await look(text)
    expect(found.layers).toEqual([])
    expect(told(found)).toEqual([expect.stringMatching(why)])
    expect(found.table!.taken).toBeNull()
    expect(found.table!.columns.map(({ name }) => name)).toEqual(text.split('\n')[0]!.split(','))
  })
  it('metres in columns named lat and lon are read where their grid is given', async () => {
    const text = `lat,lon\n${METRES}\n`
    expect(await look(text)).toMatchObject({ layers: [], asksGrid: true })
    const [[lon, lat]] = places(await look(text, null, 'EPSG:32633')) as [number[]]
    expect(lon).toBeCloseTo(15.6401, 7)
    expect(lat).toBeCloseTo(46.3371, 7)
  })
  it('a single number out of range is that line’s fault', async () => {
    const found = await look(`lat,lon\n${LAT},${LON}\n${LAT},${LON}\n463.371,${LON}\n`)
    expect(places(found)).toEqual([SPOT, SPOT, null])
    expect(found.layers[0]!.features[2]!.flaws.join()).toMatch(/latitude 463\.371/)
  })
})

describe('columns that a person chooses', () => {
  const TEXT = 'what;a;b;both;none\nPear;46,3371;15,6401;46.3371, 15.6401;\nPlum;46,3372;15,6402;46.3372, 15.6402;\n'
  const SPOTS = [SPOT, [15.6402, 46.3372]]
  const chosen = (north: string, east: string, text = TEXT) => look(text, { north, east })
  it('are not known by their names', async () => {
    const found = await look('what,a,b\nPear,46.3371,15.6401\n')
    expect([found.layers, found.table]).toEqual([
      [],
      {
        columns: [
          { name: 'what', sample: 'Pear' },
          { name: 'a', sample: '46.3371' },
          { name: 'b', sample: '15.6401' },
        ],
        taken: null,
        wrong: { north: null, east: null },
      },
    ])
  })
  it('are read, and stand no longer among the columns of what is brought', async () => {
    const found = await chosen('a', 'b')
    expect(places(found)).toEqual(SPOTS)
    expect(found.layers[0]!.features[0]!.values).toEqual({ what: 'Pear', both: '46.3371, 15.6401' })
    expect(told(found)[0]).toMatch(/columns "a" \(north\) and "b" \(east\); .*taken for longitude and latitude/)
    expect(found.table).toMatchObject({ taken: { north: 'a', east: 'b' }, wrong: { north: null, east: null } })
  })
  it('may be one for both', async () => {
    expect(places(await chosen('both', 'both'))).toEqual(SPOTS)
  })
  it('count before those known by their names', async () => {
    expect(places(await chosen('a', 'b', `lat,lon,a,b\n1,2,${LAT},${LON}\n`))).toEqual([SPOT])
  })
  it('may be metres of a grid', async () => {
    const text = `a,b\n${METRES}\n`
    expect(await look(text, { north: 'a', east: 'b' })).toMatchObject({ layers: [], asksGrid: true })
    const [[lon, lat]] = places(await look(text, { north: 'a', east: 'b' }, 'EPSG:32633')) as [number[]]
    expect(lon).toBeCloseTo(15.6401, 7)
    expect(lat).toBeCloseTo(46.3371, 7)
  })
  it.each([
    ['words', 'what', 'b', { north: 'has "Pear" in line 2, which is not a number', east: null }],
    ['words for east', 'a', 'what', { north: null, east: 'has "Pear" in line 2, which is not a number' }],
    ['an empty one', 'none', 'b', { north: 'has nothing in it', east: null }],
    ['one that is not there', 'a', 'c', { north: null, east: 'is no column of this file' }],
    [
      'one for both that holds one',
      'a',
      'a',
      { north: null, east: 'is chosen for north too, and does not hold both, such as “46.3371, 15.6401”' },
    ],
  ])('are told wrong where they hold %s', async (_, north, east, wrong) => {
    const found = await chosen(north, east)
    expect([found.layers, found.table!.taken, found.table!.wrong]).toEqual([[], null, wrong])
  })
  it('are told wrong where they are swapped, by their values or by their names', async () => {
    const far = await chosen('b', 'a', 'a,b\n-33.4489,151.2093\n')
    expect(far.layers).toEqual([])
    expect(far.table!.wrong).toEqual({
      north: 'has 151.2093 in line 2, and no latitude lies beyond ±90: are the two swapped?',
      east: null,
    })
    // Read all the same: it is the names that may be wrong.
    const named = await chosen('lon', 'lat', `lat,lon\n${LAT},${LON}\n`)
    expect(places(named)).toEqual([[46.3371, 15.6401]])
    expect(named.table!.wrong).toEqual({
      north: 'is named as a longitude is: are the two swapped?',
      east: 'is named as a latitude is: are the two swapped?',
    })
  })
  it('are told wrong where one holds what no place is', async () => {
    const found = await chosen('height', 'b', 'height,b\n312.5,15.6401\n')
    expect(found.table!.wrong.north).toMatch(/^has 312\.5 in line 2.*no latitude.*metres need the grid/)
    expect(found.asksGrid).toBe(true)
  })
})
