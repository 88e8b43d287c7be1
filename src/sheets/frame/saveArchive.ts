import { ask } from '../state/door.ts'

/** Hands the whole farm over as a zip; null when done, else what went wrong. */
export async function saveArchive(): Promise<string | null> {
  const reply = await ask('takeArchive', {})
  if (!reply.ok) return reply.fault.detail
  const { name, bytes } = reply.value
  const url = URL.createObjectURL(new Blob([bytes.slice()], { type: 'application/zip' }))
  const link = document.createElement('a')
  link.href = url
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(url), 60_000)
  return null
}
