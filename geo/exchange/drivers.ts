import type { Brought, Driver, How } from './driver.ts'
import { readFound } from './layers/readFound.ts'

/** A format of other programs: what is found in a file is read as a farm by one rule for all of them. */
const foreign = (driver: Omit<Driver, 'read' | 'look'> & { look: NonNullable<Driver['look']> }): Driver => ({
  ...driver,
  read: async (bytes: Uint8Array, how: How): Promise<Brought> =>
    readFound(await driver.look(bytes, how), farmNameOf(how.fileName)),
})

/** Every format; what each needs is loaded when it is first used. */
export const DRIVERS: readonly Driver[] = [
  {
    name: 'archive zip',
    title: 'archive',
    endings: ['.zip'],
    mediaType: 'application/zip',
    look: null,
    read: async (bytes, how) => (await import('./zipDriver.ts')).readZipArchive(bytes, how),
    write: async (content) => (await import('./zipDriver.ts')).writeZipArchive(content),
  },
  foreign({
    name: 'geojson',
    title: 'GeoJSON',
    endings: ['.geojson', '.json'],
    mediaType: 'application/geo+json',
    look: async (bytes, how) => (await import('./geojson/lookIntoGeoJson.ts')).lookIntoGeoJson(bytes, how),
    write: async (content) => (await import('./writeGeoJson.ts')).writeGeoJson(content),
  }),
  foreign({
    name: 'geopackage',
    title: 'GeoPackage',
    endings: ['.gpkg'],
    mediaType: 'application/geopackage+sqlite3',
    look: async (bytes, how) => (await import('./geopackage/lookIntoGeoPackage.ts')).lookIntoGeoPackage(bytes, how),
    write: async (content, how) => (await import('./geopackage/writeGeoPackage.ts')).writeGeoPackage(content, how),
  }),
  foreign({
    name: 'shapefile',
    title: 'shapefiles, zipped',
    endings: ['.shp.zip', '.shz'],
    mediaType: 'application/zip',
    look: async (bytes, how) => (await import('./shapefile/lookIntoShapefiles.ts')).lookIntoShapefiles(bytes, how),
    write: async (content) => (await import('./shapefile/writeShapefiles.ts')).writeShapefiles(content),
  }),
  foreign({
    name: 'kml',
    title: 'KML',
    endings: ['.kml'],
    mediaType: 'application/vnd.google-earth.kml+xml',
    look: async (bytes, how) => (await import('./kml/lookIntoKml.ts')).lookIntoKml(bytes, how),
    write: async (content) => (await import('./kml/writeKml.ts')).writeKml(content),
  }),
  foreign({
    name: 'kmz',
    title: 'KMZ',
    endings: ['.kmz'],
    mediaType: 'application/vnd.google-earth.kmz',
    look: async (bytes, how) => (await import('./kml/lookIntoKmz.ts')).lookIntoKmz(bytes, how),
    write: async (content) => (await import('./kml/writeKml.ts')).writeKmz(content),
  }),
  foreign({
    name: 'gpx',
    title: 'GPX',
    endings: ['.gpx'],
    mediaType: 'application/gpx+xml',
    look: async (bytes, how) => (await import('./gpx/lookIntoGpx.ts')).lookIntoGpx(bytes, how),
    write: async (content) => (await import('./gpx/writeGpx.ts')).writeGpx(content),
  }),
  foreign({
    name: 'csv',
    title: 'CSV with coordinates',
    endings: ['.csv', '.tsv', '.txt'],
    mediaType: 'text/csv',
    look: async (bytes, how) => (await import('./csv/lookIntoCsv.ts')).lookIntoCsv(bytes, how),
    write: async (content) => (await import('./csv/writeCsv.ts')).writeCsv(content),
  }),
]

/** The format of a file by the ending of its name, or null. The longest ending that fits counts. */
export function driverFor(fileName: string): Driver | null {
  const name = fileName.toLowerCase()
  const fitting = DRIVERS.flatMap((driver) =>
    driver.endings.filter((ending) => name.endsWith(ending)).map((ending) => ({ driver, ending })),
  ).sort((a, b) => b.ending.length - a.ending.length)
  return fitting[0]?.driver ?? null
}

/** The format of a file that is there: a `.zip` without an archive's `farm.json` in it holds shapefiles, or none. */
export async function driverForFile(fileName: string, bytes: Uint8Array): Promise<Driver | null> {
  const driver = driverFor(fileName)
  if (driver?.name !== 'archive zip') return driver
  const { holdsShapefile } = await import('./shapefile/holdsShapefile.ts')
  return holdsShapefile(bytes) ? driverNamed('shapefile') : driver
}

export function driverNamed(name: Driver['name']): Driver {
  return DRIVERS.find((driver) => driver.name === name)!
}

/** A farm's name from its file's: without folder, ending and underscores. */
export function farmNameOf(fileName: string): string {
  const plain = fileName.replace(/^.*[/\\]/, '')
  const ending = DRIVERS.flatMap(({ endings }) => endings)
    .filter((one) => plain.toLowerCase().endsWith(one))
    .sort((a, b) => b.length - a.length)[0]
  return (
    plain
      .slice(0, plain.length - (ending?.length ?? 0))
      .replace(/[_]+/g, ' ')
      .trim() || 'Farm'
  )
}
