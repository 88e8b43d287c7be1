import type { Fault } from '../archive.ts'
import type { How } from '../driver.ts'
import type { Found, FoundLayer } from '../layers/found.ts'
import { readZip } from '../readZip.ts'
import { readKml } from './readKml.ts'

/** Every KML file of a KMZ (some programs put each layer into one of its own, linked from the first). */
export async function lookIntoKmz(bytes: Uint8Array, how: How): Promise<Found> {
  const { files, faults } = readZip(bytes)
  const inside = (name: string) => (name === '' ? how.fileName : `${how.fileName}/${name}`)
  const notes: Fault[] = faults.map((fault) => ({ ...fault, file: inside(fault.file) }))
  const layers: FoundLayer[] = []
  const documents = [...files].filter(([path]) => /\.kml$/i.test(path))
  for (const [path, document] of documents) {
    const read = await readKml(document, inside(path), how.pace)
    layers.push(...read.layers)
    const linked = read.notes.filter(({ field }) => field !== 'NetworkLink' || documents.length === 1)
    notes.push(...linked)
  }
  if (documents.length === 0 && faults.length === 0)
    notes.push({ file: how.fileName, record: '', field: '', reason: 'holds no KML file' })
  return { layers, notes, asksGrid: false }
}
