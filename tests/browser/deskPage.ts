import type { Page } from 'playwright-core'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import type { Answer, Ask, DeskEvent, OpenFarm, Reply, RequestName } from '../../src/desk/door.ts'

/** Asks the desk of a page of `serveDesk`. */
export function ask<N extends RequestName>(page: Page, name: N, args: Ask<N>): Promise<Reply<Answer<N>>> {
  return page.evaluate(([name, args]) => desk.ask(name as RequestName, args as Ask<RequestName>), [
    name,
    args,
  ] as const) as Promise<Reply<Answer<N>>>
}

/** Asks the desk, and gives the value; a fault fails the test. */
export async function answer<N extends RequestName>(page: Page, name: N, args: Ask<N>): Promise<Answer<N>> {
  const reply = await ask(page, name, args)
  if (!reply.ok) throw new Error(`${name} was refused: ${JSON.stringify(reply.fault)}`)
  return reply.value
}

/** What the desk has said unasked. */
export const heard = (page: Page): Promise<DeskEvent[]> => page.evaluate(() => globalThis.heard)

export const DAY = '2025-07-01'
export const ORIGIN: LonLat = [-3.7, 52.1]

/** A new, invented farm with a field. */
export async function makeFarm(page: Page, name = 'Kept farm', origin = ORIGIN): Promise<OpenFarm> {
  const open = await answer(page, 'makeFarm', {
    name,
    units: 'metric',
    currency: null,
    timezone: null,
    origin: [...origin],
  })
  await addField(page, 'field', origin)
  return open
}

/** Draws a field of about 100 m; resolves when it is confirmed. */
export function addField(page: Page, id: string, [lon, lat]: LonLat = ORIGIN) {
  const d = 0.0005
  const ring = [
    [lon - d, lat - d],
    [lon + d, lat - d],
    [lon + d, lat + d],
    [lon - d, lat + d],
    [lon - d, lat - d],
  ]
  const record = { id, name: `Field ${id}`, extra: {}, geom: { type: 'Polygon' as const, coordinates: [ring] } }
  return answer(page, 'edit', { label: `Draw ${id}`, edits: [{ do: 'add', kind: 'fields', record }], on: DAY })
}

/** Ids of the farm's fields. */
export async function fieldIds(page: Page): Promise<string[]> {
  return (await answer(page, 'listRecords', { kind: 'fields' })).map((record) => record.id)
}
