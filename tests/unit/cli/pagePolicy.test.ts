import { describe, expect, it } from 'vitest'
import { policySent, policyWithin } from '../../../src/cli/pagePolicy.ts'

describe('the page’s policy', () => {
  it('allows a style in the page by the hash of what it holds', () => {
    // The text and its hash are the example of Content Security Policy Level 2, § 4.2.5 (W3C; M).
    const html = "<style>alert('Hello, world.');</style>"
    expect(policyWithin(html)).toContain("style-src 'self' 'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='; ")
  })

  it('allows each of several, and none where there is none', () => {
    expect(policyWithin('<style>a{}</style><p></p><style media="print">b{}</style>').match(/sha256-/g)).toHaveLength(2)
    expect(policyWithin('<p>style</p>')).toContain("style-src 'self'; ")
  })

  it('is sent as it stands in the page, with what a page can’t say of itself', () => {
    const html = '<style>a{}</style>'
    expect(policySent(html)).toBe(`${policyWithin(html)}; frame-ancestors 'none'`)
  })
})
