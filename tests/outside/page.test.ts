import { existsSync } from 'node:fs'
import { type Browser, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { store, unit } from '../api/demo-fixture.ts'
import { type RunningServer, startServer } from '../api/server-fixture.ts'

const CHROMIUM = '/usr/bin/chromium'
const HOSTILE = `<img src=x onerror=alert(1)><svg onload=alert(2)>`

const REPORT_POLICY = `document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
  console.error('policy: ' + violatedDirective + ' ' + blockedURI))`

/** What a page did that it should not: policy reports, dialogs, failed requests, requests to elsewhere. */
interface Watched {
  readonly page: Page
  readonly complaints: string[]
}

describe.skipIf(!existsSync(CHROMIUM))(`pages in a browser (skipped without ${CHROMIUM})`, () => {
  let browser: Browser
  let server: RunningServer
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox'] })
    server = await startServer({ fill: (corpus) => store(corpus, unit('unit-a', { title: HOSTILE })) })
  }, 60_000)
  afterAll(async () => {
    await browser?.close()
    await server?.stop()
  })

  const open = async (path: string): Promise<Watched> => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } })
    const complaints: string[] = []
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(`console: ${message.text()}`)
    })
    page.on('dialog', (dialog) => {
      complaints.push(`dialog: ${dialog.message()}`)
      void dialog.dismiss()
    })
    page.on('requestfailed', (request) => complaints.push(`failed: ${request.url()}`))
    page.on('request', (request) => {
      if (!request.url().startsWith(server.url) && !request.url().startsWith('data:'))
        complaints.push(`leaves: ${request.url()}`)
    })
    page.on('response', (response) => {
      if (response.status() >= 400) complaints.push(`${response.status()}: ${response.url()}`)
    })
    await page.addInitScript({ content: REPORT_POLICY })
    await page.goto(`${server.url}${path}`)
    return { page, complaints }
  }

  it('the start page shows a hostile title as text and asks nobody else', async () => {
    const { page, complaints } = await open('/')
    expect(await page.getByText(HOSTILE).count()).toBe(1)
    expect(await page.locator('main img, main svg, script').count()).toBe(0)
    expect(complaints).toEqual([])
    await page.close()
  })

  it.each([320, 1280])('the start page needs no sideways scrolling at %i px', async (width) => {
    const { page } = await open('/')
    await page.setViewportSize({ width, height: 800 })
    const [scroll, client] = await page.evaluate<[number, number]>(
      '[document.documentElement.scrollWidth, document.documentElement.clientWidth]',
    )
    expect(scroll).toBeLessThanOrEqual(client)
    await page.close()
  })

  it('its queries run when they are followed', async () => {
    const { page } = await open('/')
    const links = await page.locator('h3 a').all()
    expect(links).toHaveLength(3)
    const targets = await Promise.all(links.map((link) => link.getAttribute('href')))
    for (const target of targets) {
      await page.goto(`${server.url}${target}`)
      expect(JSON.parse((await page.textContent('body')) ?? '')).toHaveProperty('data')
    }
    await page.close()
  })

  it('every element that takes the keyboard shows where it is', async () => {
    const { page } = await open('/')
    await page.keyboard.press('Tab')
    const outline = await page.evaluate('getComputedStyle(document.activeElement).outlineStyle')
    expect(outline).not.toBe('none')
    await page.close()
  })

  it('the explorer works without a network, under a policy without inline scripts, and asks nobody else', async () => {
    const { page, complaints } = await open('/explore/')
    await page.getByText('Send Request').click({ timeout: 30_000 })
    await page.getByText('unit-a').first().waitFor({ timeout: 30_000 })
    expect(complaints).toEqual([])
    await page.close()
  }, 90_000)
})
