import { photos } from '../model/photos.ts'
import { type ArchiveFiles, blankDraft, type Draft, isPlainName, PHOTO_FOLDER } from './archive.ts'
import { type Faults, shown } from './faults.ts'
import { isPicture } from './isPicture.ts'
import { readJson } from './readJson.ts'
import { readProperty, whyNotKept } from './readValue.ts'
import { whyNoCorners } from './whyNoCorners.ts'

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
  else {
    const bytes = files.get(PHOTO_FOLDER + name)
    if (!bytes) faults.of(draft, 'file', `${PHOTO_FOLDER}${name} is not in the archive`)
    else if (!isPicture(bytes))
      faults.of(draft, 'file', `${PHOTO_FOLDER}${name} is no picture that can be shown (PNG, JPEG, WebP or TIFF)`)
  }
}

function checkCorners(draft: Draft, faults: Faults): void {
  const corners = draft.record.corners as [number, number][] | null
  const reason = corners && whyNoCorners(corners)
  if (reason) faults.of(draft, 'corners', reason)
}
