import type { How } from '../driver.ts'
import type { Found } from '../layers/found.ts'
import { readKml } from './readKml.ts'

export async function lookIntoKml(bytes: Uint8Array, how: How): Promise<Found> {
  return { ...(await readKml(bytes, how.fileName, how.pace)), asksGrid: false }
}
