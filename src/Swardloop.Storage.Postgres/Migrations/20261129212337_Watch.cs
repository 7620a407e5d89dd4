using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Swardloop.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class Watch : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Watch",
                columns: table => new
                {
                    Yard = table.Column<Guid>(type: "uuid", nullable: false),
                    ByWeakest = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    ByFivePercent = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    State = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    Counted = table.Column<int>(type: "integer", nullable: false),
                    Readings = table.Column<int>(type: "integer", nullable: false),
                    LastReadOn = table.Column<DateOnly>(type: "date", nullable: true),
                    IsOdd = table.Column<bool>(type: "boolean", nullable: false),
                    Weakest = table.Column<string>(type: "text", nullable: true),
                    FivePercent = table.Column<string>(type: "text", nullable: true),
                    Forecast = table.Column<string>(type: "text", nullable: true),
                    LimitsOf = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: true),
                    WeakestLimitOhms = table.Column<double>(type: "double precision", nullable: true),
                    FivePercentLimitOhms = table.Column<double>(type: "double precision", nullable: true),
                    LimitDeviationOhms = table.Column<double>(type: "double precision", nullable: false),
                    ComputedFrom = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: true),
                    StaleSince = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Watch", x => x.Yard);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Watch_ByFivePercent",
                table: "Watch",
                column: "ByFivePercent");

            migrationBuilder.CreateIndex(
                name: "IX_Watch_ByWeakest",
                table: "Watch",
                column: "ByWeakest");

            migrationBuilder.CreateIndex(
                name: "IX_Watch_StaleSince",
                table: "Watch",
                column: "StaleSince");

            // Yards that were there before: each has its line, and waits to be computed.
            migrationBuilder.Sql(
                @"INSERT INTO ""Watch"" (""Yard"", ""ByWeakest"", ""ByFivePercent"", ""State"", ""Counted"", ""Readings"", ""IsOdd"", ""LimitDeviationOhms"", ""StaleSince"")
                SELECT ""Yard"", '999999999' || replace(""Yard""::text, '-', ''), '999999999' || replace(""Yard""::text, '-', ''), '', 0, 0, FALSE, 0, 0 FROM ""Yards"";");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Watch");
        }
    }
}
