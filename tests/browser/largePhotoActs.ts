import type { Page, Worker } from 'playwright-core'
import { expect } from 'vitest'

/** Chooses photos as the browser's own dialog does: by path, however large they are. */
export async function choosePhotos(page: Page, paths: readonly string[]): Promise<void> {
  const cdp = await page.context().newCDPSession(page)
  const { root } = await cdp.send('DOM.getDocument')
  const { nodeId } = await cdp.send('DOM.querySelector', {
    nodeId: root.nodeId,
    selector: '.table-pane .file input[type=file]',
  })
  await cdp.send('DOM.setFileInputFiles', { nodeId, files: [...paths] })
  await cdp.detach()
}

/** The worker that draws large photos, once it is there. */
export async function tilesWorkerOf(page: Page): Promise<Worker> {
  const find = () => page.workers().find((one) => one.url().includes('tilesWorker'))
  await expect.poll(() => find() !== undefined).toBe(true)
  return find()!
}
