import type { FarmContent, Reading } from './archive.ts'
import type { Brought, Written } from './driver.ts'
import { readArchive } from './readArchive.ts'
import { readZip } from './readZip.ts'
import { writeArchive } from './writeArchive.ts'
import { writeZip } from './writeZip.ts'

/** Reads a zipped archive with the zip's own faults before those of its files. */
export function readZipped(zip: Uint8Array): Reading {
  const { files, faults } = readZip(zip)
  if (files.size === 0 && faults.length > 0) return { ...readArchive(files), faults }
  const reading = readArchive(files)
  return { ...reading, faults: [...faults, ...reading.faults] }
}

export function readZipArchive(zip: Uint8Array): Brought {
  const { content, faults, leftOut } = readZipped(zip)
  const told = new Set(faults)
  return { content, notes: [...faults, ...leftOut.filter((one) => !told.has(one))] }
}

export function writeZipArchive(content: FarmContent): Written {
  return { bytes: writeZip(writeArchive(content)), notes: [] }
}
