// Mends an open page in place while its diary is written. Only the preview puts
// this on a page; a built site has no line of it.
(() => {
  const own = document.currentScript;
  const places = '[id^="entry-"],.letter>*,.said>*'; // where words of the diary stand
  const slip = () => document.getElementById('preview-slip');
  const says = n => n.outerHTML.replace(/ open=""/g, '');
  let changed = [], ear, last = Promise.resolve();

  // Makes a like b, touching only what differs, so that what was opened,
  // scrolled or focused stays so.
  function mend(a, b) {
    if (a.isEqualNode(b)) return;
    if (a.nodeType != 1) return a.nodeValue = b.nodeValue;
    if (a.matches(places) && says(a) != says(b)) changed.push(a);
    const kept = name => name == 'open' && a.nodeName == 'DETAILS';
    for (const { name, value } of b.attributes) if (!kept(name) && a.getAttribute(name) != value) a.setAttribute(name, value);
    for (const { name } of [...a.attributes]) if (!kept(name) && !b.hasAttribute(name)) a.removeAttribute(name);

    const from = [...a.childNodes], to = [...b.childNodes];
    let end = null;
    while (from[0] && to[0] && from[0].isEqualNode(to[0])) from.shift(), to.shift();
    while (from[0] && to[0] && from.at(-1).isEqualNode(to.at(-1))) end = from.pop(), to.pop();
    const left = new Set(from);
    let at = from[0] || end;
    for (const n of to) {
      let o = from.find(o => left.has(o) && o.nodeName == n.nodeName && (o.id || '') == (n.id || ''));
      if (o) {
        left.delete(o);
        mend(o, n);
      } else {
        o = document.importNode(n, true);
        if (o.nodeType == 1) changed.push(...(o.matches(places) ? [o] : o.querySelectorAll(places)));
      }
      if (o == at) at = at.nextSibling;
      else a.insertBefore(o, at);
    }
    left.forEach(o => o.remove());
  }

  async function renew() {
    const answer = await fetch(location.pathname);
    if (!answer.ok) return;
    if (document.querySelector('[data-preview-bare]')) return location.reload();
    const fresh = new DOMParser().parseFromString(await answer.text(), 'text/html');
    document.querySelectorAll('[data-preview-new]').forEach(n => n.removeAttribute('data-preview-new'));
    // What is looked at stays where it is, whatever grows above it.
    const y = n => n.getBoundingClientRect().top;
    const seen = scrollY && [...document.querySelectorAll('main :is(li,p,h2,figure)')].find(n => n.offsetHeight && y(n) >= 0);
    const was = seen && y(seen);
    changed = [];
    mend(document.documentElement, fresh.documentElement);
    if (seen && seen.isConnected) scrollBy({ top: y(seen) - was, behavior: 'instant' });
    const first = changed.find(n => n.isConnected);
    if (!first) return;
    first.setAttribute('data-preview-new', '');
    if (first.getBoundingClientRect().bottom < 80 || y(first) > innerHeight - 80 - slip().offsetHeight) first.scrollIntoView({ block: 'center', behavior: 'instant' });
  }

  function listen() {
    if (ear || document.hidden) return;
    ear = new EventSource(own.dataset.stream + '?page=' + encodeURIComponent(location.pathname) + '&print=' + own.dataset.print);
    ear.onmessage = e => {
      const now = JSON.parse(e.data), fresh = slip().cloneNode();
      fresh.innerHTML = now.slip;
      mend(slip(), fresh);
      const differs = () => now.print && now.print != own.dataset.print && renew();
      last = last.then(differs, differs);
    };
    ear.onerror = () => { if (ear.readyState == 2) hush(), setTimeout(listen, 500); };
  }

  // A browser opens six connections to one name: only pages that are seen hold one.
  function hush() { ear && ear.close(); ear = null; }
  document.addEventListener('visibilitychange', () => document.hidden ? hush() : listen());
  addEventListener('pagehide', hush);
  addEventListener('pageshow', listen);
  listen();
})();
