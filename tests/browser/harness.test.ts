import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { newProfile, removeProfile, type Site, serveDesk, startBrowser } from './harness.ts'

describe('a browser test', () => {
  let site: Site
  let profile: string
  beforeAll(async () => {
    site = await serveDesk()
    profile = await newProfile()
  })
  afterAll(async () => {
    await site?.close()
    await removeProfile(profile)
  })

  it('fails on what a page or its worker complains of, and on requests that leave the page', async () => {
    const browser = await startBrowser(site.url, profile)
    const page = await browser.open('')
    await page.evaluate(() => desk.ask('listFarms', {}))
    expect(browser.takeComplaints()).toEqual([])
    await page.workers()[0]!.evaluate(() => console.warn('from the worker'))
    await page.evaluate(() => {
      console.error('from the page')
      setTimeout(() => {
        throw new Error('not caught')
      })
      return new Promise((thrown) => addEventListener('error', thrown, { once: true })).then(() => null)
    })
    await page.goto('http://127.0.0.2:9/elsewhere').catch(() => undefined)
    await expect(browser.close()).rejects.toThrow(
      /(?=.*warning: from the worker)(?=.*error: from the page)(?=.*not caught)(?=.*asked for http:\/\/127\.0\.0\.2:9\/elsewhere)/s,
    )
  })

  it('sees a page that nothing outside its own site can reach', async () => {
    const browser = await startBrowser(site.url, profile)
    const page = await browser.open('')
    const refused = await page.evaluate(() =>
      fetch('http://127.0.0.2:9/').then(
        () => false,
        () => true,
      ),
    )
    expect(refused).toBe(true)
    expect(browser.takeComplaints().join()).toMatch(/Content Security Policy/)
    await browser.close()
  })
})
