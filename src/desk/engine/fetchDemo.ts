import { demoPhotosUrl } from 'virtual:selion-demo'
import { fetchHere } from './fetchEngine.ts'

/** The demo farm's photos, the photos folder of an archive as a zip: a file of the page's own. */
export async function fetchDemoPhotos(signal: AbortSignal): Promise<Uint8Array> {
  return new Uint8Array(await (await fetchHere(demoPhotosUrl, signal)).arrayBuffer())
}
