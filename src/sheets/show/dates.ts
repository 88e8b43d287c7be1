/** A calendar day in the device's locale: "14 Sept 2026". */
export function showDay(on: string): string {
  return format({ day: 'numeric', month: 'short', year: 'numeric' }).format(atNoon(on))
}

/** A day without its year: "14 Sept". */
export function showDayOfYear(on: string): string {
  return format({ day: 'numeric', month: 'short' }).format(atNoon(on))
}

/** A day in full, for reading out: "Monday, 14 September 2026". */
export function sayDay(on: string): string {
  return format({ weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' }).format(atNoon(on))
}

export function showMonth(on: string): string {
  return format({ month: 'short' }).format(atNoon(on))
}

export function showClock(ms: number): string {
  return new Intl.DateTimeFormat(undefined, { hour: '2-digit', minute: '2-digit' }).format(new Date(ms))
}

/** A moment by day and time, for lists of what is kept. */
export function showMoment(ms: number): string {
  return new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' }).format(new Date(ms))
}

const made = new Map<string, Intl.DateTimeFormat>()

function format(options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = JSON.stringify(options)
  let found = made.get(key)
  if (!found) {
    found = new Intl.DateTimeFormat(undefined, { ...options, timeZone: 'UTC' })
    made.set(key, found)
  }
  return found
}

function atNoon(on: string): Date {
  return new Date(`${on}T12:00:00Z`)
}
