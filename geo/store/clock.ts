/** A hybrid logical clock's reading as text that sorts by time: milliseconds, count within them, device. */
export type Reading = string

/**
 * The next reading after `last`, never behind the device's own clock and never at or before `last`.
 * Kulkarni et al. 2014, Logical Physical Clocks, for local events.
 */
export function tick(last: Reading | null, nowMs: number, device: string): Reading {
  const [lastMs, lastCount] = last ? [Number(last.slice(0, 15)), Number(last.slice(16, 22))] : [0, 0]
  const ms = Math.max(lastMs, Math.floor(nowMs))
  const count = ms === lastMs && last ? lastCount + 1 : 0
  return `${String(ms).padStart(15, '0')}-${String(count).padStart(6, '0')}-${device}`
}
