/**
 * What may stand in a result on the share page, written down anew and not taken from the sanitiser: elements that show
 * something and do nothing, and attributes that say how. Runs in the page; must not use anything around it.
 */
export function whatIsNotInert(): string[] {
  const HTML = new Set(
    (
      'div p span section article aside header footer main nav address hgroup h1 h2 h3 h4 h5 h6 ul ol li dl dt dd dir menu ' +
      'figure figcaption details summary blockquote pre hr br wbr table caption colgroup col thead tbody tfoot tr th td ' +
      'a b i u s em strong small big sub sup mark del ins q cite dfn abbr code kbd samp var tt time data bdi bdo ruby rt rp ' +
      'font center strike nobr acronym marquee blink meter progress output legend datalist optgroup search'
    ).split(' '),
  );
  // A link without an address is a text.
  const SVG = new Set(
    (
      'svg g defs symbol desc path rect circle ellipse line polyline polygon text tspan textPath marker pattern mask clipPath ' +
      'linearGradient radialGradient stop switch view tref glyph glyphRef font hkern vkern altGlyph altGlyphDef altGlyphItem'
    ).split(' '),
  );
  const ADDRESS =
    /^(href|xlink:href|src|srcset|action|formaction|background|poster|data|ping|cite|longdesc|codebase|classid|archive|profile|manifest|usemap|lowsrc|dynsrc|icon|srcdoc|xml:base|from|to|values|by)$/;
  const DOING =
    /^(on.*|slot|part|http-equiv|target|rel|download|contenteditable|autofocus|autoplay|popover.*|accesskey|draggable|name|form|nonce|shadowrootmode|itemprop|data-.*)$/;
  const OWN_NAMES = /^(cautions-title|provenance-title|hourline-workbook)$/;
  const LOADING = /url\s*\((?!\s*["']?#)|image-set|expression|@import|binding|behavior|\\/i;
  const SCHEME = /^[\s\0-\x20]*(javascript|vbscript|data|https?|file|blob)\s*:|^\s*\/\//i;

  const wrong: string[] = [];
  for (const result of document.querySelectorAll('.result')) {
    const where = result.closest('section')?.getAttribute('aria-label') ?? '?';
    for (const element of result.querySelectorAll('*')) {
      const { namespaceURI, localName } = element;
      const known = namespaceURI === 'http://www.w3.org/2000/svg' ? SVG : HTML;
      const foreign =
        namespaceURI !== 'http://www.w3.org/2000/svg' && namespaceURI !== 'http://www.w3.org/1999/xhtml';
      if (foreign || !known.has(localName)) wrong.push(`${where}: <${localName}>`);
      for (const { name, value } of element.attributes) {
        const bad =
          ADDRESS.test(name) ||
          DOING.test(name) ||
          // The sanitiser can only empty it: an element without the name of a script's class does nothing.
          (name === 'is' && value !== '') ||
          (name === 'id' && OWN_NAMES.test(value)) ||
          (name === 'tabindex' && value !== '0') ||
          (name !== 'title' && name !== 'class' && LOADING.test(value)) ||
          SCHEME.test(value);
        if (bad) wrong.push(`${where}: <${localName} ${name}="${value.slice(0, 80)}">`);
      }
    }
  }
  return wrong;
}
