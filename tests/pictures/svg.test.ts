import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { el, escapeXml, svgNumber, svgRoot, writeSvg } from '#src/pictures/svg.ts'
import { readSvg } from './read-svg.ts'

describe('writing SVG', () => {
  test('markup that somebody typed stays text', () => {
    const svg = writeSvg(el('text', { x: 1 }, ['<script>"a" & \'b\'</script>']))
    expect(svg).toBe('<text x="1">&lt;script&gt;&quot;a&quot; &amp; &#39;b&#39;&lt;/script&gt;</text>')
  })

  test('what XML cannot hold is left out', () => {
    expect(escapeXml('a\u0000b\u0008c\ud800d\uffffe\tf🌱')).toBe('abcde\tf🌱')
  })

  test('any text in an element or attribute is read back as it was', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (typed) => {
        const svg = writeSvg(svgRoot(10, 10, [el('text', { fill: typed }, [typed])]))
        const read = readSvg(svg)
        const kept = typed.replace(/[^\t\n\r -\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '')
        expect(read.text).toBe(kept)
        expect(read.elements[1]?.attributes.fill).toBe(kept)
      }),
    )
  })

  test.each([
    [1, '1'],
    [-0.001, '0'],
    [0.125, '0.13'],
    [1e6 + 0.5, '1000000.5'],
  ])('%d is written as %s', (value, text) => {
    expect(svgNumber(value)).toBe(text)
  })

  test.each([Number.NaN, Number.POSITIVE_INFINITY])('a coordinate of %d is a bug', (value) => {
    expect(() => svgNumber(value)).toThrow(RangeError)
  })
})
