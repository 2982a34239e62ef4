"""What the codes in answers and problem documents mean, for programs and people."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated, Any

import msgspec
from litestar import Request, Response, get
from litestar.handlers import HTTPRouteHandler
from litestar.params import FromPath
from msgspec import Meta
from tepidarium_engine import __version__ as engine_version
from tepidarium_engine.cautions import CAUTIONS
from tepidarium_engine.findings import FINDINGS, STAGES
from tepidarium_engine.findings.kind import Severity
from tepidarium_engine.refusals import REFUSALS

from .document import ANSWER_KEY
from .finding_examples import FindingExample, finding_examples
from .negotiation import JSON
from .problems import Refusal, problem
from .queries import CACHED, etag, is_known

__all__ = ["PATH", "CodeCatalogue", "ExplainedFinding", "code_catalogue", "code_routes"]

PATH = "/v1/findings"
CODES_KEY = "x-codes"
"""Under which the schema lists the codes there are now; later versions add some."""


class FindingEntry(msgspec.Struct, frozen=True, kw_only=True):
    """One kind of finding."""

    code: Annotated[
        str, Meta(description="Stable code of the finding", extra_json_schema={CODES_KEY: list(FINDINGS)})
    ]
    severities: Annotated[
        tuple[Severity, ...], Meta(description="How serious it can be, the most serious first")
    ]
    stage: Annotated[
        str, Meta(description="Stage of the work that it belongs to; stages come in their order")
    ]
    meaning: Annotated[str, Meta(description="What happens and why it matters")]
    cause: Annotated[str, Meta(description="What it usually comes from")]
    remedy: Annotated[str, Meta(description="What to do")]
    calculations: Annotated[tuple[str, ...], Meta(description="Names of the calculations that can report it")]
    guard: Annotated[
        bool,
        Meta(
            description="Whether it only watches over the engine's own work: no request is known that gives it"
        ),
    ]


class ExplainedFinding(msgspec.Struct, frozen=True, kw_only=True):
    """One kind of finding, and a request that leads to it."""

    finding: Annotated[FindingEntry, Meta(description="The kind of finding")]
    example: Annotated[
        FindingExample | None,
        Meta(description="The request; null for a guard, and where only slow ones are known"),
    ]


class RefusalEntry(msgspec.Struct, frozen=True, kw_only=True):
    """One code of a faulty field in a problem document."""

    code: Annotated[
        str, Meta(description="Stable code of the fault", extra_json_schema={CODES_KEY: list(REFUSALS)})
    ]
    meaning: Annotated[str, Meta(description="What is wrong")]
    remedy: Annotated[str, Meta(description="What to do")]
    guard: Annotated[
        bool,
        Meta(
            description="Whether it only watches over the engine's own work: no request is known that gives it"
        ),
    ]


class CautionEntry(msgspec.Struct, frozen=True, kw_only=True):
    """One caution."""

    code: Annotated[
        str, Meta(description="Stable code of the caution", extra_json_schema={CODES_KEY: list(CAUTIONS)})
    ]
    message: Annotated[str, Meta(description="What endangers people or the building, and what to do")]


class CodeCatalogue(msgspec.Struct, frozen=True, kw_only=True):
    """Every code that answers and problem documents can hold."""

    engine_version: Annotated[str, Meta(description="Version of the engine")]
    findings: Annotated[
        tuple[FindingEntry, ...], Meta(description="The findings, in the order in which to deal with them")
    ]
    refusals: Annotated[tuple[RefusalEntry, ...], Meta(description="The faults of fields that are refused")]
    cautions: Annotated[tuple[CautionEntry, ...], Meta(description="The cautions")]


def _findings() -> dict[str, FindingEntry]:
    return {
        code: FindingEntry(code=code, stage=stage, **asdict(kind))
        for stage, kinds in STAGES.items()
        for code, kind in kinds.items()
    }


def code_catalogue() -> CodeCatalogue:
    """The tables of the engine as one document."""
    return CodeCatalogue(
        engine_version=engine_version,
        findings=tuple(_findings().values()),
        refusals=tuple(RefusalEntry(code=code, **kind._asdict()) for code, kind in REFUSALS.items()),
        cautions=tuple(CautionEntry(code=code, message=message) for code, message in CAUTIONS.items()),
    )


def _cached(content: bytes, request: Request[Any, Any, Any]) -> Response[bytes]:
    tag = etag(content)
    headers = {"ETag": tag.decode(), "Cache-Control": CACHED.decode(), "Content-Language": "en"}
    if is_known(tag, request.headers.get("if-none-match", "").encode("latin-1")):
        return Response(b"", status_code=304, headers=headers)
    return Response(content, media_type=JSON, headers=headers)


def code_routes() -> list[HTTPRouteHandler]:
    content, findings = msgspec.json.encode(code_catalogue()), _findings()

    @get(
        PATH,
        operation_id="list_findings",
        summary="What the codes of findings, refusals and cautions mean",
        description="Every code with its meaning and remedy; findings with severities, usual cause and the "
        "calculations that report them, in the order in which to deal with them. The `ETag` stands for the list.",
        tags=["catalogue"],
        opt={ANSWER_KEY: CodeCatalogue, "cached": True},
    )
    async def list_findings(request: Request[Any, Any, Any]) -> Response[bytes]:
        return _cached(content, request)

    @get(
        f"{PATH}/{{code:str}}",
        operation_id="explain_finding",
        summary="What a finding means, with a request that leads to it",
        description="One kind of finding as in the list, and a small request whose answer reports it, to try a program "
        "with.",
        tags=["catalogue"],
        opt={
            ANSWER_KEY: ExplainedFinding,
            "cached": True,
            "path_values": {"code": tuple(FINDINGS)},
            "problems": ("not-found",),
        },
    )
    async def explain_finding(code: FromPath[str], request: Request[Any, Any, Any]) -> Response[bytes]:
        if code not in findings:
            raise Refusal(problem("not-found", "there is no such finding"))
        explained = ExplainedFinding(finding=findings[code], example=finding_examples().get(code))
        return _cached(msgspec.json.encode(explained), request)

    return [list_findings, explain_finding]
