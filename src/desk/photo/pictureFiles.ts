import type { PhotoFile } from '../door.ts'
import { Refusal } from '../refusal.ts'

/** One of a photo's files, told apart by the ending of its name. */
export interface EndedFile {
  readonly ending: string
  readonly bytes: Uint8Array<ArrayBuffer>
}

/** A picture with what lies beside it. */
export interface PictureFiles {
  readonly name: string
  readonly kept: { readonly picture: EndedFile; readonly worldFile?: EndedFile; readonly prj?: EndedFile }
}

const MIMES: Readonly<Record<string, string>> = {
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  webp: 'image/webp',
}
/** World files are named after their picture's ending: first and last letter and a w, or the whole ending and a w. */
const WORLD_FILE = /^(wld|[a-z]{2,4}w)$/

export const isTiff = (ending: string): boolean => ending === 'tif' || ending === 'tiff'
export const mimeOf = (ending: string): string => MIMES[ending] ?? 'application/octet-stream'

/** Tells a picture, its world file and its .prj apart by the endings of their names. Refuses where there is not one picture. */
export function sortEndings<T extends { readonly name: string }>(
  files: readonly T[],
): {
  readonly picture: T & { readonly ending: string }
  readonly worldFile: (T & { readonly ending: string }) | undefined
  readonly prj: (T & { readonly ending: string }) | undefined
} {
  const ended = files.map((file) => ({
    ...file,
    ending: file.name.slice(file.name.lastIndexOf('.') + 1).toLowerCase(),
  }))
  const pictures = ended.filter(({ ending }) => isTiff(ending) || ending in MIMES)
  const [picture] = pictures
  if (!picture || pictures.length > 1)
    throw new Refusal(
      'photo',
      'Choose one photo: a GeoTIFF (.tif), or any .png, .jpg, .webp or .tif picture, with its world file where there is one.',
      { field: 'file' },
    )
  return {
    picture,
    worldFile: ended.find(({ ending }) => WORLD_FILE.test(ending)),
    prj: ended.find(({ ending }) => ending === 'prj'),
  }
}

/** The same of files whose bytes are at hand. */
export function sortPictureFiles(files: readonly PhotoFile[]): PictureFiles {
  const { picture, worldFile, prj } = sortEndings(files)
  const endedFile = ({ ending, bytes }: PhotoFile & { ending: string }): EndedFile => ({
    ending,
    bytes: bytes as Uint8Array<ArrayBuffer>,
  })
  return {
    name: picture.name,
    kept: {
      picture: endedFile(picture),
      ...(worldFile ? { worldFile: endedFile(worldFile) } : {}),
      ...(prj ? { prj: endedFile(prj) } : {}),
    },
  }
}
