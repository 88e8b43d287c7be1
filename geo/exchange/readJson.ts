import { decodeText } from './decodeText.ts'
import type { Faults } from './faults.ts'
import { jsonFlaw } from './jsonFlaw.ts'
import { parseExactly } from './wideNumbers.ts'

/** The value of a JSON file (whole numbers too large to be exact as `WideNumber`), or null with its fault told (line and column of the first flaw). */
export function readJson(file: string, bytes: Uint8Array, faults: Faults): { value: unknown } | null {
  const decoded = decodeText(bytes)
  if (!('text' in decoded)) {
    faults.ofFile(file, decoded.reason, decoded.line === null ? '' : `line ${decoded.line}`)
    return null
  }
  try {
    return { value: parseExactly(decoded.text) }
  } catch (error) {
    const flaw = jsonFlaw(decoded.text)
    if (!flaw) faults.ofFile(file, `is not JSON: ${(error as Error).message}`)
    else faults.ofFile(file, `is not JSON: ${flaw.reason}`, `line ${flaw.line}, column ${flaw.column}`)
    return null
  }
}
