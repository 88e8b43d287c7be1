import type { FarmContent } from './archive.ts'
import type { Brought, How, Written } from './driver.ts'
import { readOpened } from './readArchive.ts'
import { readArchiveZip } from './readArchiveZip.ts'
import { writeArchive } from './writeArchive.ts'
import { writeZip } from './writeZip.ts'

export function readZipArchive(zip: Uint8Array, { fileName }: How): Brought {
  const { content, faults, leftOut } = readOpened(readArchiveZip(zip, fileName))
  const told = new Set(faults)
  return { content, notes: [...faults, ...leftOut.filter((one) => !told.has(one))] }
}

export function writeZipArchive(content: FarmContent): Written {
  return { bytes: writeZip(writeArchive(content)), notes: [] }
}
