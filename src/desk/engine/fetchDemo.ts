import { demoCopyUrl, demoPhotosUrl } from 'virtual:selion-demo'
import { fetchHere } from './fetchEngine.ts'

/** What the demo farm has beside its database. */
export interface DemoParts {
  /** The photos folder of an archive, as a zip. */
  readonly photos: Uint8Array
  /** Its first logical copy. */
  readonly copy: Uint8Array
}

/** Fetches them: files of the page's own. */
export async function fetchDemo(signal: AbortSignal): Promise<DemoParts> {
  const bytesAt = async (url: string) => new Uint8Array(await (await fetchHere(url, signal)).arrayBuffer())
  const [photos, copy] = await Promise.all([bytesAt(demoPhotosUrl), bytesAt(demoCopyUrl)])
  return { photos, copy }
}
