const MB = 1024 * 1024
const GB = 1024 * MB

/** A length of data in words: MB, or GB with a decimal, in the device's locale. */
export function showBytes(bytes: number): string {
  if (bytes >= GB) return `${(bytes / GB).toLocaleString(undefined, { maximumFractionDigits: 1 })} GB`
  return `${Math.max(bytes > 0 ? 1 : 0, Math.round(bytes / MB)).toLocaleString()} MB`
}
