import sqliteUrl from 'sql.js/dist/sql-wasm-browser.wasm?url'
import { driverNamed } from '../../../geo/exchange/drivers.ts'
import { readContent } from '../../../geo/exchange/readContent.ts'
import { standsOn } from '../../../geo/exchange/standsOn.ts'
import { noPause } from '../../../geo/store/pace.ts'
import { type Answers, farmOf } from './answers.ts'

/** Layers of the farm for other programs, as a file. */
export const sendOut: Answers['sendOut'] = async ({ format, kinds, on }, asked) => {
  const { db } = farmOf(asked)
  const content = await db.transaction((tx) => readContent(tx, new Map()))
  const driver = driverNamed(format)
  const stem = content.farm.name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'farm'
  const name = `${stem}${on === null ? '' : `-${on}`}${driver.endings[0]}`
  const how = { fileName: name, grid: null, columns: null, pace: noPause, sqliteUrl }
  const { bytes, notes } = await driver.write(standsOn(content, kinds, on), how)
  return { file: { name, bytes }, mediaType: driver.mediaType, notes }
}
