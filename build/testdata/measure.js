// What a reader would stumble over on a page as it is laid out now: a list of
// complaints, empty where there are none. Run in the page by browser_test.go.
(() => {
  const complaints = [], say = words => complaints.push(words);
  const wide = document.documentElement.clientWidth;
  const rect = e => e.getBoundingClientRect();
  const shown = e => e.checkVisibility({ contentVisibilityAuto: true, visibilityProperty: true, opacityProperty: true });
  const short = e => (e.textContent || e.outerHTML).trim().replace(/\s+/g, " ").slice(0, 40);

  // sideways scroll
  if (document.documentElement.scrollWidth > wide) {
    const worst = [...document.querySelectorAll("main *, header *, footer *")]
      .filter(e => rect(e).right > wide + .5 && !e.closest(".scroll")).slice(0, 3).map(e => e.tagName + "." + e.getAttribute("class") + " " + short(e));
    say(`scrolls sideways: ${document.documentElement.scrollWidth} px on ${wide} px (${worst.join("; ")})`);
  }

  // words of one drawing on one another, and words cut by the window's edge
  const drawings = [...document.querySelectorAll("svg")].filter(s => !s.ownerSVGElement && shown(s));
  let words = 0;
  for (const drawing of drawings) {
    const boxes = [...drawing.querySelectorAll("text")].filter(t => shown(t) && t.textContent.trim() !== "")
      .map(t => ({ box: rect(t), says: short(t) })).filter(t => t.box.width > 0 && t.box.height > 0);
    words += boxes.length;
    boxes.forEach((a, i) => {
      if (a.box.left < -1 || a.box.right > wide + 1) say(`"${a.says}" is cut by the edge: ${a.box.left.toFixed(1)} to ${a.box.right.toFixed(1)} of ${wide}`);
      for (const b of boxes.slice(i + 1)) {
        const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
        if (across > 1 && down > 1) say(`"${a.says}" and "${b.says}" overlap by ${across.toFixed(1)} × ${down.toFixed(1)} px`);
      }
    });
  }

  // HTML words that stick out of the window, but for those in a region that scrolls
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const small = new Set(), range = document.createRange();
  while (walk.nextNode()) {
    const node = walk.currentNode, e = node.parentElement;
    if (node.data.trim() === "" || e.closest("script, style, desc, title") || !shown(e)) continue;
    const size = parseFloat(getComputedStyle(e).fontSize);
    if (size < 12.99) small.add(`${size} px: "${short(e)}"`);
    if (e.closest("svg, .scroll, pre, .spoken, .past-nav")) continue;
    range.selectNodeContents(node);
    for (const r of range.getClientRects()) {
      if (r.width > 0 && (r.left < -1 || r.right > wide + 1)) { say(`"${short(e)}" is cut by the edge: ${r.left.toFixed(1)} to ${r.right.toFixed(1)} of ${wide}`); break; }
    }
  }
  for (const s of small) say("text under 13 px, " + s);

  // pictures keep their place while they come
  for (const img of document.images) {
    if (!(img.getAttribute("width") > 0 && img.getAttribute("height") > 0)) say("a picture without its size: " + img.getAttribute("src"));
    if (img.getAttribute("alt") === null) say("a picture without words: " + img.getAttribute("src"));
  }

  // headings: one h1, no level left out
  let level = 0;
  const headings = [...document.querySelectorAll("h1, h2, h3, h4, h5, h6")];
  if (headings.filter(h => h.tagName === "H1").length !== 1) say("not one h1 but " + headings.filter(h => h.tagName === "H1").length);
  for (const h of headings) {
    const n = Number(h.tagName[1]);
    if (n > level + 1) say(`h${n} "${short(h)}" follows h${level}`);
    level = n;
    if (h.textContent.trim() === "") say(`an empty h${n}`);
  }

  // what can be focused shows it, has a name, and is large enough to hit
  let stops = 0;
  for (const e of document.querySelectorAll("a[href], button, summary, input, [tabindex]")) {
    if (!shown(e)) continue;
    stops++;
    e.focus({ focusVisible: true, preventScroll: true });
    if (document.activeElement !== e) { say("can't be focused: " + short(e)); continue; }
    const style = getComputedStyle(e);
    if (style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2) say(`no ring round "${short(e)}" in focus`);
    if ((e.textContent + (e.getAttribute("aria-label") || "")).trim() === "") say("a link without words: " + e.getAttribute("href"));
    if (e.matches("nav a, summary") && (rect(e).height < 24 || rect(e).width < 24)) say(`"${short(e)}" is a target of ${rect(e).width.toFixed(0)} × ${rect(e).height.toFixed(0)} px`);
    e.blur();
  }
  return { complaints: [...new Set(complaints)].slice(0, 12), drawings: drawings.length, words, stops };
})()
