import { fetchedGrids } from '../photo/fetchGrids.ts'
import { waitForHandles } from '../shelf/accessHandle.ts'
import { openShelf } from '../shelf/openShelf.ts'
import { answerTiles } from './answerTiles.ts'
import { serveTiles } from './serveTiles.ts'
import type { FromTiles, ToTiles } from './tilesDoor.ts'

const worker = self as unknown as {
  name: string
  onmessage: (message: MessageEvent<ToTiles>) => void
  postMessage(message: FromTiles, transfer: Transferable[]): void
}

async function start() {
  waitForHandles()
  const { shelf } = await openShelf(worker.name)
  return serveTiles((message, transfer) => worker.postMessage(message, transfer), answerTiles(shelf, fetchedGrids()))
}

const starting = start()
worker.onmessage = async ({ data }) => (await starting)(data)
