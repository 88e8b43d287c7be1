import type { Driver } from './driver.ts'

/** Every format; what each needs is loaded when it is first used. */
export const DRIVERS: readonly Driver[] = [
  {
    name: 'archive zip',
    ending: '.zip',
    read: async (bytes) => (await import('./zipDriver.ts')).readZipArchive(bytes),
    write: async (content) => (await import('./zipDriver.ts')).writeZipArchive(content),
  },
  {
    name: 'geojson',
    ending: '.geojson',
    read: async (bytes) => (await import('./readGeoJson.ts')).readGeoJson(bytes),
    write: async (content) => (await import('./writeGeoJson.ts')).writeGeoJson(content),
  },
]

/** The format of a file by the ending of its name, or null. */
export function driverFor(fileName: string): Driver | null {
  const name = fileName.toLowerCase()
  if (name.endsWith('.json')) return DRIVERS.find((driver) => driver.name === 'geojson') ?? null
  return DRIVERS.find((driver) => name.endsWith(driver.ending)) ?? null
}
