"""The other end of the shop's mail: an SMTP server (aiosmtpd) that keeps each message as a file.

Arguments: the folder for messages, and the port (0 for any free one). The first line of output is
the port. It ends when its standard input ends. The recipient's local part picks what goes wrong:

- `gone`: there is no such mailbox, for good (550)
- `moved`: the same, the first time only
- `grey`: not now (451), the first time
- `dropafter`: takes the message and hangs up before it says so, the first time
"""

import asyncio
import pathlib
import sys

from aiosmtpd.smtp import SMTP


class Peer:
    def __init__(self, folder):
        self.folder = folder
        self.met = set()

    def is_first(self, address):
        first = address not in self.met
        self.met.add(address)
        return first

    async def handle_RCPT(self, server, session, envelope, address, options):
        local = address.split("@")[0]
        if local == "gone" or (local == "moved" and self.is_first(address)):
            return "550 5.1.1 There is no such mailbox here"
        if local == "grey" and self.is_first(address):
            return "451 4.7.1 Not now, please try again later"
        envelope.rcpt_tos.append(address)
        return "250 2.1.5 OK"

    async def handle_DATA(self, server, session, envelope):
        place = len(list(self.folder.glob("*.eml")))
        name = f"{place:04}.eml"
        (self.folder / name).write_bytes(envelope.content)
        (self.folder / f"{place:04}.to").write_text("\n".join(envelope.rcpt_tos))
        if any(to.startswith("dropafter@") and self.is_first(to) for to in envelope.rcpt_tos):
            server.transport.abort()
            return "421 4.0.0 Never said"
        return "250 2.0.0 OK"


async def main():
    folder, port = pathlib.Path(sys.argv[1]), int(sys.argv[2])
    peer = Peer(folder)
    loop = asyncio.get_running_loop()
    server = await loop.create_server(
        lambda: SMTP(peer, hostname="peer.example", enable_SMTPUTF8=True, loop=loop),
        "127.0.0.1",
        port,
    )
    print(server.sockets[0].getsockname()[1], flush=True)
    await loop.run_in_executor(None, sys.stdin.read)


asyncio.run(main())
