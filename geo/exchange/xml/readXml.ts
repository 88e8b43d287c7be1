import { SaxesParser } from 'saxes'
import type { Pace } from '../../store/pace.ts'
import { decodeXml } from './decodeXml.ts'

/** One element; names are without their namespace's prefix. */
export interface XmlElement {
  readonly name: string
  readonly attributes: Readonly<Record<string, string>>
  /** The line of its opening tag, from 1. */
  readonly line: number
  text: string
  children: XmlElement[]
}

export interface XmlRead {
  /** The outermost element with what was not taken out of it; null where there is none. */
  readonly root: XmlElement | null
  /** What ended the reading before the file did, or null. What stood before it has been heard. */
  readonly flaw: { readonly line: number | null; readonly reason: string } | null
}

/** Hears of elements while the file is read, so that a large one is never held whole. */
export interface XmlHearer {
  opened?(element: XmlElement, above: readonly XmlElement[]): void
  /** True: the element is done with, and is not kept in the one above it. */
  closed(element: XmlElement, above: readonly XmlElement[]): boolean
}

const STEP = 128 * 1024
const DEEPEST = 100

class Refused extends Error {}

/**
 * Reads XML 1.0 strictly. A document type declaration is refused outright: entities that it defines, of the file or from
 * outside, are the way of bombs and of reading what is nobody's business, and none of the formats here needs one.
 */
export async function readXml(bytes: Uint8Array, hearer: XmlHearer, pace: Pace): Promise<XmlRead> {
  const decoded = decodeXml(bytes)
  if (!('text' in decoded)) return { root: null, flaw: decoded }
  const { text } = decoded
  const parser = new SaxesParser({ position: true })
  const above: XmlElement[] = []
  let root: XmlElement | null = null
  let line = 1
  parser.on('doctype', () => {
    throw new Refused('has a document type declaration (DOCTYPE), which is not read: entities in it can do harm')
  })
  parser.on('opentagstart', () => {
    line = parser.line
  })
  parser.on('opentag', (tag) => {
    if (above.length >= DEEPEST) throw new Refused(`is nested more than ${DEEPEST} elements deep`)
    const attributes: Record<string, string> = {}
    for (const [name, value] of Object.entries(tag.attributes)) attributes[local(name)] = String(value)
    const element: XmlElement = { name: local(tag.name), attributes, line, text: '', children: [] }
    root ??= element
    hearer.opened?.(element, above)
    above.at(-1)?.children.push(element)
    above.push(element)
  })
  const addText = (more: string) => {
    const element = above.at(-1)
    if (element) element.text += more
  }
  parser.on('text', addText)
  parser.on('cdata', addText)
  parser.on('closetag', () => {
    const element = above.pop()!
    element.text = element.text.trim()
    if (hearer.closed(element, above)) above.at(-1)?.children.pop()
  })
  try {
    for (let at = 0; at < text.length; at += STEP) {
      parser.write(text.slice(at, at + STEP))
      await pace(at, text.length)
    }
    parser.close()
  } catch (error) {
    if (error instanceof Refused) return { root, flaw: { line: parser.line, reason: error.message } }
    if (!(error instanceof Error) || error.name !== 'Error') throw error
    return {
      root,
      flaw: { line: parser.line, reason: `is not well-formed XML: ${error.message.replace(/^\d+:\d+: /, '')}` },
    }
  }
  return { root, flaw: null }
}

function local(name: string): string {
  return name.slice(name.indexOf(':') + 1)
}

/** The first child of that name, or undefined. */
export function childOf(element: XmlElement, name: string): XmlElement | undefined {
  return element.children.find((child) => child.name === name)
}

/** The text of the first child of that name; null where there is none or it is empty. */
export function textOf(element: XmlElement, name: string): string | null {
  return childOf(element, name)?.text || null
}
