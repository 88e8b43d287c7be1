import { FACES, type Face } from '../marks.ts'
import { browserType } from './deviceType.ts'
import { FONT_FILES } from './fontFiles.ts'
import { openFonts, type Type } from './openFonts.ts'

let loaded: Promise<Type> | null = null

/** The bundled type, fetched once from where the page came from. Rejects where a file can't be had; asked again, it tries again. */
export function loadType(): Promise<Type> {
  loaded ??= load().catch((error: unknown) => {
    loaded = null
    throw error
  })
  return loaded
}

async function load(): Promise<Type> {
  const urls = [...new Set(FACES.flatMap((face) => FONT_FILES[face]))]
  const fetched = await Promise.all(
    urls.map(async (url) => {
      const answer = await fetch(url)
      if (!answer.ok) throw new Error(`a font for printing could not be fetched (${answer.status})`)
      return [url, new Uint8Array(await answer.arrayBuffer())] as const
    }),
  )
  const bytes = new Map(fetched)
  const files = Object.fromEntries(FACES.map((face) => [face, FONT_FILES[face].map((url) => bytes.get(url)!)]))
  return openFonts(files as Record<Face, Uint8Array[]>, browserType())
}
