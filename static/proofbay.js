// The few listeners the pages need. Everything else is done by the server and by htmx.
(() => {
  const notice = () => document.getElementById("notice");

  const say = (sentence) => {
    const paragraph = document.createElement("p");
    paragraph.className = "panel panel-stop";
    paragraph.textContent = sentence;
    notice().replaceChildren(paragraph);
    notice().scrollIntoView({ block: "nearest" });
  };

  const textOf = (html) => new DOMParser().parseFromString(html, "text/html").body.textContent.replace(/\s+/g, " ").trim();

  // A 5xx answer is not swapped in (see htmx-config), so what was typed stays; its sentence goes to the notice.
  document.addEventListener("htmx:response:error", (event) => {
    const { response, text } = event.detail.ctx;
    if (response.status >= 500) say(textOf(text ?? "") || "Something went wrong here. Nothing was stored.");
  });

  document.addEventListener("htmx:error", (event) => {
    if (event.detail.ctx) say("No connection. Nothing was stored; what you typed is still here. Send it again when the network is back.");
  });

  document.addEventListener("htmx:before:request", () => notice().replaceChildren());

  // What somebody has unfolded stays unfolded when the board around it is renewed.
  let unfolded = [];
  document.addEventListener("htmx:before:swap", () => {
    unfolded = [...document.querySelectorAll("details[id][open]")].map((one) => one.id);
  });
  document.addEventListener("htmx:after:swap", () => {
    for (const id of unfolded) document.getElementById(id)?.setAttribute("open", "");
  });
  document.addEventListener("click", (event) => {
    if (event.target.closest("[data-print]")) window.print();
  });
})();
