// What would be missing on paper: run in the page with print media on.
(() => {
  document.body.getBoundingClientRect(); // lay the page out for paper, before asking what shows
  for (const d of document.querySelectorAll("details")) for (const e of d.children) e.getBoundingClientRect();
  const complaints = [], say = words => complaints.push(words);
  const shown = e => e.checkVisibility({ contentVisibilityAuto: true, visibilityProperty: true });
  let opened = 0;
  for (const d of document.querySelectorAll("details")) {
    if (d.closest(".one-sheet .strips, .one-sheet .boxes")) continue; // a season's one sheet has these counts in words alone
    for (const e of d.children) {
      if (e.tagName === "SUMMARY") continue;
      opened++;
      if (!shown(e) || e.getBoundingClientRect().height === 0) say("closed on paper: " + e.textContent.trim().slice(0, 40));
    }
  }
  for (const e of document.querySelectorAll("nav, .past-nav")) if (shown(e)) say("on paper and of no use there: " + e.outerHTML.slice(0, 40));
  if (getComputedStyle(document.body).backgroundColor !== "rgb(255, 255, 255)") say("the ground is " + getComputedStyle(document.body).backgroundColor);
  if (getComputedStyle(document.body).color !== "rgb(0, 0, 0)") say("the ink is " + getComputedStyle(document.body).color);
  for (const img of document.images) if (!shown(img)) say("a picture that isn't printed: " + img.src);
  return { complaints, opened };
})()
