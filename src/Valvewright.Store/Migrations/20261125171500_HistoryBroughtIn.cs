using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Valvewright.Store.Migrations
{
    /// <inheritdoc />
    public partial class HistoryBroughtIn : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "BroughtInAt",
                table: "History",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "BroughtInBy",
                table: "History",
                type: "TEXT",
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "BroughtInAt",
                table: "History");

            migrationBuilder.DropColumn(
                name: "BroughtInBy",
                table: "History");
        }
    }
}
