import type { Geometry, Position } from 'geojson'
import type { ArchiveFiles, Fault } from '../../../geo/exchange/archive.ts'
import { readArchive } from '../../../geo/exchange/readArchive.ts'

/** A file as a case gives it: text, bytes, or something to be written as JSON. */
export type Given = string | Uint8Array | object

/** An archive's files from text. */
export function archiveOf(files: Readonly<Record<string, Given | null>>): ArchiveFiles {
  const encoder = new TextEncoder()
  const known = Object.entries(files).filter((entry): entry is [string, Given] => entry[1] !== null)
  return new Map(
    known.map(([path, given]) => {
      if (given instanceof Uint8Array) return [path, given]
      return [path, encoder.encode(typeof given === 'string' ? given : JSON.stringify(given))]
    }),
  )
}

/** The small invented farm with some of its files put in other words; null takes one away. */
export function farmWith(files: Readonly<Record<string, Given | null>>): ArchiveFiles {
  return archiveOf({ ...SOUND, ...files })
}

/** The faults of the small farm with some files changed. */
export function faultsWith(files: Readonly<Record<string, Given | null>>): readonly Fault[] {
  return readArchive(farmWith(files)).faults
}

export function feature(id: string | null, geometry: Geometry | null | object, properties: object): object {
  return {
    type: 'Feature',
    ...(id === null ? {} : { id }),
    geometry,
    properties: id === null ? properties : { id, ...properties },
  }
}

export function collection(...features: object[]): object {
  return { type: 'FeatureCollection', features }
}

/** Origin of the small farm, lon and lat. */
export const HERE = [8.03, 47.41] as const
/** Degrees of about a metre there. */
const EAST = 1 / 75_300
const NORTH = 1 / 111_200

/** A place some metres east and north of the small farm's origin. */
export function at(eastM: number, northM: number): Position {
  return [HERE[0] + eastM * EAST, HERE[1] + northM * NORTH]
}

/** A rectangle from its south-west corner, counter-clockwise. */
export function box(eastM: number, northM: number, widthM: number, lengthM: number): Geometry {
  const [e, n] = [eastM + widthM, northM + lengthM]
  const ring = [at(eastM, northM), at(e, northM), at(e, n), at(eastM, n), at(eastM, northM)]
  return { type: 'Polygon', coordinates: [ring] }
}

export function line(...places: readonly (readonly [eastM: number, northM: number])[]): Geometry {
  return { type: 'LineString', coordinates: places.map(([e, n]) => at(e, n)) }
}

export const point = (eastM: number, northM: number): Geometry => ({ type: 'Point', coordinates: at(eastM, northM) })

/** An invented farm with a record or two in every file. */
export const SOUND: Readonly<Record<string, Given>> = {
  'farm.json': { format: 'selion-farm', version: 1, name: 'Invented farm', origin: HERE },
  'fields.geojson': collection(feature('f1', box(0, 0, 60, 60), { name: 'Upper' })),
  'beds.geojson': collection(
    feature('b1', box(5, 5, 1.2, 40), { field: 'f1', name: 'Bed 1', made: '2021-03-01' }),
    feature('b2', box(8, 5, 1.2, 40), { field: 'f1', name: 'Bed 2' }),
  ),
  'rows.geojson': collection(
    feature('r1', line([5.6, 6], [5.6, 44]), { bed: 'b1', side: 'middle' }),
    feature('r2', line([8.6, 6], [8.6, 44]), { bed: 'b2' }),
  ),
  'trees.geojson': collection(feature('t1', point(-8, 10), { species: 'Juglans nigra', planted: '1990-04-01' })),
  'supports.geojson': collection(feature('s1', line([5.7, 6], [5.7, 44]), { system: 'y1', put_up: '2024-05-01' })),
  'structures.geojson': collection(feature('w1', line([0, 0], [60, 0]), { kind: 'fence' })),
  'observations.geojson': collection(feature('o1', point(5.6, 20), { on: '2024-07-01', kind: 'disease', severity: 2 })),
  'crops.csv': 'id,name,family,climbs\ntomato,Tomato,Solanaceae,yes\nleek,Leek,Amaryllidaceae,no\n',
  'varieties.csv': 'id,crop,name\nv1,tomato,Early\nv2,leek,Winter\n',
  'containers.csv': 'unit,kg,crop,source\ncrate,8,,weighed\nbushel,24.04,tomato,state list\n',
  'systems.csv': 'id,name\ny1,Post and wire\n',
  'system_parts.csv': 'system,part,rule,unit_cost\ny1,post,length / 6 + 1,12.5\n',
  'system_work.csv': 'system,work,minutes_per_m,when\ny1,tying,1.5,summer\n',
  'plantings.csv':
    'id,row,bed,variety,from_m,to_m,set_out,cleared\np1,r1,,v1,0,20,2024-05-10,2024-10-01\np2,,b2,v2,,,2024-04-01,\n',
  'picks.csv':
    'id,on,planting,bed,lon,lat,quantity,unit\nk1,2024-08-01,p1,,,,2,bushel\nk2,2024-08-02,,b1,,,1.5,crate\nk3,2024-08-03,,,8.0301,47.4101,3,lb\n',
  'shares.csv': 'pick,to,part,use\nk1,Household A,0.5,kitchen\nk1,Household B,0.5,preserving\n',
  'dressings.csv': 'id,on,bed,material,kg_per_m2,raw_manure\nd1,2024-03-01,b1,compost,3,no\n',
  'stock_lots.csv': 'id,kind,bed,row,year,count\nl1,Persian walnut,b2,,2023,100\n',
  'stock_moves.csv':
    'id,lot,on,move,count\nm1,l1,2024-09-01,reserved,20\nm2,l1,2024-11-01,lifted,20\nm3,l1,2024-11-02,sold,20\n',
  'photos.json': [{ id: 'a1', file: 'june.png', on: '2024-06-01' }],
  'photos/june.png': new Uint8Array([0x89, 0x50, 0x4e, 0x47]),
}
