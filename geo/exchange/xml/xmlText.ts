/** Text as it stands between tags or in an attribute (XML 1.0 §2.4); characters that XML can't hold are left out. */
export function xmlText(value: string): string {
  return [...value]
    .filter((c) => /[\t\n\r\u0020-\uD7FF\uE000-\uFFFD]|[\u{10000}-\u{10FFFF}]/u.test(c))
    .join('')
    .replace(/[&<>"]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c]!)
}

/** An element with text in it; nothing where there is no text. */
export function textElement(name: string, value: string | null): string {
  return value === null || value === '' ? '' : `<${name}>${xmlText(value)}</${name}>`
}
