import { ask } from '../state/door.ts'
import { saveFile } from './saveFile.ts'

/** Hands the whole farm over as a zip; null when done, else what went wrong. */
export async function saveArchive(): Promise<string | null> {
  const reply = await ask('takeArchive', {})
  if (!reply.ok) return reply.fault.detail
  const { name, zip } = reply.value
  saveFile(name, zip)
  return null
}
