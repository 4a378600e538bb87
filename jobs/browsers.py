"""What a browser says it is, in plain words. It may say anything; nothing rests on it."""

# Looked for in this order: most browsers name others beside themselves. From the texts that they
# send today, from memory.
BROWSERS = (
    ("SamsungBrowser", "Samsung Internet"),
    ("Edg", "Edge"),
    ("OPR", "Opera"),
    ("Firefox", "Firefox"),
    ("FxiOS", "Firefox"),
    ("CriOS", "Chrome"),
    ("Chrom", "Chrome"),
    ("Safari", "Safari"),
)
SYSTEMS = (
    ("iPad", "iPad"),
    ("iPhone", "iPhone"),
    ("Android", "Android"),
    ("CrOS", "Chromebook"),
    ("Windows", "Windows"),
    ("Macintosh", "Mac or iPad"),  # an iPad says by default that it is a Mac
    ("Linux", "Linux"),
)


def browser_words(agent: str) -> str:
    """“Chrome on Android” for what a browser sent as User-Agent; empty: it says nothing known."""
    browser = next((words for sign, words in BROWSERS if sign in agent), "")
    system = next((words for sign, words in SYSTEMS if sign in agent), "")
    if not browser or not system:
        return browser or system
    return f"{browser} on {system}"
