import { SHEETS, type SheetName } from '../names.ts'
import { isCalendarDay } from '../show/days.ts'

/** Where the map looks: its middle in degrees, zoom, and the direction that is up (degrees clockwise from north). */
export interface View {
  readonly lon: number
  readonly lat: number
  readonly zoom: number
  readonly bearing: number
}

/** What the page's address says. Null where it says nothing, or nothing that can be read. */
export interface Address {
  readonly sheet: SheetName | null
  readonly on: string | null
  readonly view: View | null
}

/** Reads `#sheet/day/lon,lat,zoom` or `#sheet/day/lon,lat,zoom,bearing`. */
export function readAddress(hash: string): Address {
  const [sheet = '', on = '', view = ''] = hash.replace(/^#/, '').split('/')
  return {
    sheet: SHEETS.find((name) => name === sheet) ?? null,
    on: isCalendarDay(on) ? on : null,
    view: readView(view),
  }
}

function readView(text: string): View | null {
  const parts = text.split(',')
  if (parts.length < 3 || parts.length > 4 || parts.some((part) => part.trim() === '')) return null
  const [lon, lat, zoom, bearing = 0] = parts.map(Number)
  const within = (value: number | undefined, limit: number) => value !== undefined && Math.abs(value) <= limit
  if (!within(lon, 540) || !within(lat, 90) || !within(zoom, 30) || !within(bearing, 360)) return null
  return { lon: lon!, lat: lat!, zoom: zoom!, bearing }
}

/** Writes what `readAddress` reads; no day where that is null. Seven decimals of a degree are about a centimetre. */
export function writeAddress(sheet: SheetName, on: string | null, view: View | null): string {
  const place = view === null ? '' : `/${writeView(view)}`
  return on === null && view === null ? `#${sheet}` : `#${sheet}/${on ?? ''}${place}`
}

function writeView({ lon, lat, zoom, bearing }: View): string {
  const told = [round(lon, 7), round(lat, 7), round(zoom, 2)]
  const up = round(bearing, 1)
  return (up === 0 ? told : [...told, up]).join(',')
}

function round(value: number, decimals: number): number {
  return Number(value.toFixed(decimals))
}
