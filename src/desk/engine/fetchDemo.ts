import { demoUrl } from 'virtual:selion-demo'
import { fetchHere } from './fetchEngine.ts'

/** The demo farm's archive, a zip: a file of the page's own. */
export async function fetchDemo(signal: AbortSignal): Promise<Uint8Array> {
  return new Uint8Array(await (await fetchHere(demoUrl, signal)).arrayBuffer())
}
