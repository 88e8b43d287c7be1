import { PHOTO_FOLDER } from '../../../geo/exchange/archive.ts'
import { readArchiveZip } from '../../../geo/exchange/readArchiveZip.ts'
import { readZip } from '../../../geo/exchange/readZip.ts'
import { type Farm, farm as farmKind } from '../../../geo/model/farm.ts'
import { insertRecords, openStep, readRecords } from '../../../geo/store/row.ts'
import { setPlane } from '../../../geo/store/setPlane.ts'
import { readEntry, shownEntry } from '../farm/entry.ts'
import { foundFarm } from '../farm/foundFarm.ts'
import { letGo } from '../farm/letGo.ts'
import { listEntries } from '../farm/listEntries.ts'
import { loadFiles } from '../farm/loadFiles.ts'
import { lockFarm } from '../farm/lockFarm.ts'
import { openFarm } from '../farm/openFarm.ts'
import { writePhotoFile } from '../farm/photoFiles.ts'
import { removeFarm } from '../farm/removeFarm.ts'
import { showFarm } from '../farm/showFarm.ts'
import type { Answers } from './answers.ts'

export const listFarms: Answers['listFarms'] = async (_, { keeper }) =>
  (await listEntries(keeper.shelf)).map(shownEntry)

export const makeFarm: Answers['makeFarm'] = async ({ name, units, currency, timezone, origin }, { keeper }) => {
  const [origin_lon, origin_lat] = origin ?? [null, null]
  const record = {
    id: 'farm',
    name,
    units,
    currency,
    timezone,
    origin_lon,
    origin_lat,
    season_start_month: 1,
    extra: {},
  }
  const farm = await foundFarm(keeper, 'new', async (db) => {
    if (origin) await setPlane(db, origin)
    await db.transaction(async (tx) => {
      await openStep(tx, 'make')
      await insertRecords(tx, farmKind, [record])
    })
    return { name, notices: [] }
  })
  return showFarm(farm)
}

export const makeDemo: Answers['makeDemo'] = async (_, { keeper, signal }) => {
  const known = (await listEntries(keeper.shelf)).find((entry) => entry.invented)
  if (known) return showFarm(await openFarm(keeper, known.id, { takeOver: false, rebuild: false }))
  const coming = keeper.fetchDemo(signal)
  // Told where it is waited for.
  coming.catch(() => undefined)
  const farm = await foundFarm(keeper, 'demo', async (db, folder) => {
    const { photos, copy } = await coming
    for (const [path, bytes] of readZip(photos).files)
      await writePhotoFile(keeper.shelf, folder, path.slice(PHOTO_FOLDER.length), bytes)
    const [record] = (await readRecords(db, farmKind)) as unknown as Farm[]
    return { name: record!.name, notices: [], copy }
  })
  return showFarm(farm)
}

export const bringArchive: Answers['bringArchive'] = async ({ name, bytes, partial }, { keeper, signal }) => {
  const opened = readArchiveZip(bytes, name)
  signal.throwIfAborted()
  const farm = await foundFarm(keeper, 'new', (db, folder) => loadFiles(db, keeper.shelf, folder, opened, { partial }))
  return showFarm(farm)
}

export const openFarmById: Answers['openFarm'] = async ({ id, takeOver, rebuild = false }, { keeper }) => {
  const farm = keeper.inHand?.entry.id === id ? keeper.inHand : await openFarm(keeper, id, { takeOver, rebuild })
  return showFarm(farm)
}

export const forgetFarm: Answers['forgetFarm'] = async ({ id }, { keeper }) => {
  if (keeper.inHand?.entry.id === id) await letGo(keeper)
  const entry = await readEntry(keeper.shelf, id)
  if (!entry) return null
  const lock = await lockFarm(keeper, entry, false)
  try {
    await removeFarm(keeper, entry)
  } finally {
    lock.release()
  }
  return null
}
