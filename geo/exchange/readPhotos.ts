import { photos } from '../model/photos.ts'
import { type ArchiveFiles, blankDraft, type Draft, isPlainName, PHOTO_FOLDER } from './archive.ts'
import { type Faults, shown } from './faults.ts'
import { readJson } from './readJson.ts'
import { readProperty, whyNotKept } from './readValue.ts'

/** Drafts of `photos.json`, a list of objects; null where the file as a whole can't be read. */
export function readPhotos(bytes: Uint8Array, files: ArchiveFiles, faults: Faults): Draft[] | null {
  const json = readJson(photos.file, bytes, faults)
  if (!json) return null
  if (!Array.isArray(json.value)) {
    faults.ofFile(photos.file, 'is not a JSON list')
    return null
  }
  return json.value.map((photo, i) => readPhoto(photo, i + 1, files, faults))
}

function readPhoto(json: unknown, n: number, files: ArchiveFiles, faults: Faults): Draft {
  const isObject = typeof json === 'object' && json !== null && !Array.isArray(json)
  const told = new Map<string, unknown>(Object.entries(isObject ? json : {}))
  const id = told.get('id')
  const where = typeof id === 'string' && id !== '' ? `photo ${n} (${id})` : `photo ${n}`
  const draft = blankDraft(photos, where, '')
  const { record } = draft
  if (!isObject) {
    faults.of(draft, '', 'is not a JSON object')
    return draft
  }
  for (const [name, field] of Object.entries(photos.fields)) {
    const read = readProperty(field, told.get(name))
    if ('reason' in read) faults.of(draft, name, read.reason)
    else record[name] = read.value
  }
  const extra = [...told].filter(([name]) => !Object.hasOwn(photos.fields, name))
  for (const [name, value] of extra) {
    const unkept = whyNotKept(name) ?? whyNotKept(value)
    if (unkept) faults.of(draft, name, unkept)
  }
  record.extra = Object.fromEntries(extra)
  if (!draft.unread.has('file')) checkFile(draft, files, faults)
  if (!draft.unread.has('corners')) checkCorners(draft, faults)
  return draft
}

function checkFile(draft: Draft, files: ArchiveFiles, faults: Faults): void {
  const name = draft.record.file as string
  if (!isPlainName(name)) faults.of(draft, 'file', `${shown(name)} is not the plain name of a file in ${PHOTO_FOLDER}`)
  else if (!files.has(PHOTO_FOLDER + name)) faults.of(draft, 'file', `${PHOTO_FOLDER}${name} is not in the archive`)
}

function checkCorners(draft: Draft, faults: Faults): void {
  const corners = draft.record.corners as [number, number][] | null
  for (const [lon, lat] of corners ?? [])
    if (Math.abs(lat) > 90 || Math.abs(lon) > 360) {
      const swapped = Math.abs(lat) > 90 && Math.abs(lon) <= 90 ? ' (lon and lat look swapped)' : ''
      faults.of(draft, 'corners', `${shown([lon, lat])} is no place on earth${swapped}`)
      return
    }
}
